import { useEffect } from 'react'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { PAIR_WORD } from '../openers'
import { setSession, useSession } from '../store'
import { COMPARE_WORDS, shows, takeShown } from './take'
import { besideOf, endWipe, nameOf, putInHand, showCompared, startWipe, strangers } from './wipe'

/**
 * 'compare' puts the two takes shown last whole side by side, 'split picture' in one frame; 'in turn 1 | 3' shows them in turn, each press
 * the other one, and a row of presses is one step. Where there is one take, it and the set in hand.
 */
export function Compare({ sitting, recent }: { sitting: Sitting; recent: readonly string[] }) {
  const wipe = useSession((session) => session.wipe)
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const { takes } = sitting
  const now = takeShown(sitting)?.name
  // What is kept, and what is shown, is in sight in the strip.
  useEffect(() => {
    const strip = document.querySelector('.takes .kept')
    const shown = now === undefined ? null : strip?.querySelector<HTMLElement>('[aria-pressed="true"]')
    // Of the strip alone: scrollIntoView would push all of the row to and fro.
    if (strip && shown) strip.scrollLeft = scrolledTo(strip, shown)
  }, [now])
  const order = [...recent, ...takes.map(({ name }) => name).reverse()]
  const names = [...new Set(order)].filter((name) => takes.some((take) => take.name === name)).slice(0, 2)
  const [first, second] = takes.filter(({ name }) => names.includes(name))
  const left = first ? besideOf(first, sitting) : null
  const right = second ? besideOf(second, sitting) : null
  const isPair = left !== null || right !== null
  const named = `${nameOf(left, sitting)} and ${nameOf(right, sitting)}`
  return (
    <>
      {isPair && (
        <button
          id={PAIR_WORD}
          type="button"
          className="word"
          title={COMPARE_WORDS.compare}
          aria-label={`compare ${named} side by side`}
          onClick={() => setSession({ pair: wipe ?? { left, right } })}
        >
          compare
        </button>
      )}
      {drawn && (isPair || wipe) && (
        <button
          type="button"
          className="word"
          title={COMPARE_WORDS['split picture']}
          aria-label={`split picture: ${wipe ? `${nameOf(wipe.left, sitting, wipe.inHand)} and ${nameOf(wipe.right, sitting, wipe.inHand)}` : named}`}
          aria-pressed={wipe !== null}
          onClick={() => (wipe ? endWipe() : startWipe({ left, right }))}
        >
          split picture
        </button>
      )}
      {!wipe && first && second && (
        <button
          type="button"
          className="word compare"
          title={COMPARE_WORDS['in turn']}
          aria-label={`in turn ${plain(first.name)} | ${plain(second.name)}: show ${(shows(sitting, first) ? second : first).name}`}
          onClick={() => showCompared(first, second, shows(sitting, first) ? second : first)}
        >
          {`in turn ${plain(first.name)} | ${plain(second.name)}`}
        </button>
      )}
      {wipe &&
        strangers(sitting, wipe.left, wipe.right).map((half) => (
          <button
            key={half.name}
            type="button"
            className="word compare"
            title={`makes ${half.name} the set in hand; else that stays as it is`}
            onClick={() => putInHand(half)}
          >
            {`use ${half.name}`}
          </button>
        ))}
    </>
  )
}

/** So far the strip is scrolled that the whole of the take is seen, px; as it is, where that is so already. */
function scrolledTo(strip: Element, take: HTMLElement): number {
  const [frame, box] = [strip.getBoundingClientRect(), take.getBoundingClientRect()]
  if (box.left < frame.left) return strip.scrollLeft + box.left - frame.left - STRIP_END_PX
  if (box.right > frame.right) return strip.scrollLeft + box.right - frame.right + STRIP_END_PX
  return strip.scrollLeft
}
const STRIP_END_PX = 4

const plain = (name: string): string => name.replace(/^take /, '')
