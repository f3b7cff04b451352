import { useEffect } from 'react'
import type { Sitting } from '../../sitting'
import { useDerived } from '../derived'
import { useSession } from '../store'
import { shows, takeShown } from './take'
import { endWipe, showCompared, startWipe, takeUp } from './wipe'

/**
 * '1 | 3': the two takes shown last, each press the other one; a row of presses is one step. 'split picture' puts both in
 * one frame.
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
  const order = [...(wipe ? [wipe.first, wipe.second] : recent), ...takes.map(({ name }) => name).reverse()]
  const names = [...new Set(order)].filter((name) => takes.some((take) => take.name === name)).slice(0, 2)
  const [first, second] = takes.filter(({ name }) => names.includes(name))
  if (!first || !second) return null
  const next = shows(sitting, first) ? second : first
  const named = `${first.name} and ${second.name}`
  const pair = [first, second].map(({ name }) => name.replace(/^take /, '')).join(' | ')
  return (
    <>
      {!wipe && (
        <button
          type="button"
          className="word compare"
          aria-label={`${pair}: compare, show ${next.name}`}
          onClick={() => showCompared(first, second, next)}
        >
          {pair}
        </button>
      )}
      {drawn && (
        <button
          type="button"
          className="word"
          aria-label={`split picture: ${named}`}
          aria-pressed={wipe !== null}
          onClick={() => (wipe ? endWipe() : startWipe(first, second))}
        >
          split picture
        </button>
      )}
      {wipe?.before && (
        <button
          type="button"
          className="word compare"
          title={`take up ${wipe.second}: else the set is as it was when the split ends`}
          onClick={takeUp}
        >
          {`take up ${wipe.second}`}
        </button>
      )}
    </>
  )
}
