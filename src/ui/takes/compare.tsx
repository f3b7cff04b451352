import { useEffect } from 'react'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { PAIR_WORD } from '../openers'
import { setSession, useSession } from '../store'
import { shows, takeShown } from './take'
import { besideOf, endWipe, nameOf, putInHand, showCompared, startWipe, strangers } from './wipe'

/**
 * '1 | 3': the two takes shown last, each press the other one; a row of presses is one step. 'compare' puts both whole side by side,
 * 'split picture' in one frame; where there is one take, it and the set in hand.
 */
export function Compare({ sitting, recent }: { sitting: Sitting; recent: readonly string[] }) {
  const wipe = useSession((session) => session.wipe)
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const { takes } = sitting
  const now = takeShown(sitting)?.name
  // What is kept, and what is shown, is in sight in the strip.
  useEffect(() => {
    if (now !== undefined)
      document.querySelector('.kept > [aria-pressed="true"]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' })
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
      {!wipe && first && second && (
        <button
          type="button"
          className="word compare"
          aria-label={`${plain(first.name)} | ${plain(second.name)}: show ${(shows(sitting, first) ? second : first).name}`}
          onClick={() => showCompared(first, second, shows(sitting, first) ? second : first)}
        >
          {`${plain(first.name)} | ${plain(second.name)}`}
        </button>
      )}
      {isPair && (
        <button
          id={PAIR_WORD}
          type="button"
          className="word"
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
          aria-label={`split picture: ${wipe ? `${nameOf(wipe.left, sitting)} and ${nameOf(wipe.right, sitting)}` : named}`}
          aria-pressed={wipe !== null}
          onClick={() => (wipe ? endWipe() : startWipe(left, right))}
        >
          split picture
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

const plain = (name: string): string => name.replace(/^take /, '')
