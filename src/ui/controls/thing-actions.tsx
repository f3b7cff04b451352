import {
  duplicateSource,
  duplicateThing,
  duplicateThings,
  isRemovable,
  listOf,
  removeThings,
  type Sitting,
} from '../../sitting'
import { edit, editAndHold, editAndSelect, inHand, select, setSession, useSession, useSitting } from '../store'
import { namesIn } from './words'

/** The sheet of a thing goes with the thing, and what was focused in it: the focus goes to the word of what is in hand then. */
const stayAtKeys = (): void => {
  requestAnimationFrame(() => {
    if (document.activeElement !== document.body) return
    const things = document.querySelector('.things')
    things?.querySelector<HTMLElement>('[aria-pressed="true"], button')?.focus()
  })
}

/** Nothing is in hand then, so that no other thing's words come under the hand that pressed. */
function removed(name: string, ids: readonly string[]): void {
  if (!edit(`${name} removed`, (sitting) => removeThings(sitting, ids))) return
  select(null)
  stayAtKeys()
}

/** The set in hand beside itself without the panel: what it does. */
const compareWithout = (sitting: Sitting, id: string, title: string): void =>
  setSession({
    pair: {
      left: { name: `without the ${title}`, sitting: removeThings(sitting, [id]) },
      right: null,
      inHand: { name: `with the ${title}`, sitting },
    },
  })

/** Solo, copy and remove, where the thing can be; of a panel also the set without it. */
export function ThingActions({ id, title }: { id: string; title: string }) {
  const sitting = useSitting()
  const solo = useSession((session) => session.solo)
  const alone = useSession((session) => session.also.length === 0)
  const list = listOf(sitting, id)
  const copy = (s: Sitting) => (list === 'sources' ? duplicateSource(s, id) : duplicateThing(s, id))
  return (
    <>
      {list === 'sources' && (
        <button
          type="button"
          className="word"
          aria-pressed={solo === id}
          onClick={() => setSession({ solo: solo === id ? null : id })}
        >
          alone
        </button>
      )}
      {alone && list !== null && list !== 'sitters' && list !== 'meterPlaces' && (
        <button
          type="button"
          className="word"
          onClick={() => {
            editAndSelect(`${title} copied`, copy)
            stayAtKeys()
          }}
        >
          copy
        </button>
      )}
      {alone && isRemovable(sitting, id) && (
        <button type="button" className="word" onClick={() => removed(title, [id])}>
          remove
        </button>
      )}
      {alone && list === 'panels' && (
        <button
          type="button"
          className="word"
          title={`the set with and without the ${title}, side by side`}
          aria-label={`compare without it: the set with and without the ${title}, side by side`}
          onClick={() => compareWithout(sitting, id, title)}
        >
          compare without it
        </button>
      )}
    </>
  )
}

/** Several things in hand: what they are, and what is done to all of them at once. */
export function Several() {
  const sitting = useSitting()
  const selected = useSession((session) => session.selected)
  const also = useSession((session) => session.also)
  if (also.length === 0) return null
  const ids = inHand({ selected, also })
  const names = namesIn(sitting, ids)
  const copied = ids.filter((id) => ['sources', 'panels', 'objects'].includes(listOf(sitting, id) ?? ''))
  const gone = ids.filter((id) => isRemovable(sitting, id))
  return (
    <div className="several">
      <span>{names}, together:</span>
      {copied.length > 0 && (
        <button
          type="button"
          className="word"
          onClick={() => {
            editAndHold(`${namesIn(sitting, copied)} copied`, (now) => duplicateThings(now, copied))
            stayAtKeys()
          }}
        >
          copy
        </button>
      )}
      {gone.length > 0 && (
        <button type="button" className="word" onClick={() => removed(namesIn(sitting, gone), gone)}>
          remove
        </button>
      )}
      <button type="button" className="word" onClick={() => setSession({ also: [], several: false })}>
        let go
      </button>
    </div>
  )
}
