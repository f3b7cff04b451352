import type { KeyboardEvent } from 'react'
import { LOOKS, type Look } from '../../rig'
import { JUDGE_WORD } from '../judge/judge'
import { setSession, useSession } from '../store'
import { FIRST_PLACE, SEES_WORD } from './sees'

/** In the trade's words. */
export const LOOK_WORDS: Readonly<Record<Look, string>> = {
  camera: 'picture',
  eye: 'eye crop',
  cheek: 'cheek crop',
  profile: 'profile',
}

/** What the picture carries when its exposure is judged. */
const JUDGED_FIRST = { map: false, clips: true }

/** A wipe compares two takes as the camera has them. */
export const lookShown = ({ look, wipe }: { readonly look: Look; readonly wipe: unknown }): Look =>
  wipe ? 'camera' : look

/** What the picture shows: the camera's frame, closer, or the profile. It is the page's, no part of the sitting. */
export function Looks() {
  const shown = useSession(lookShown)
  const sees = useSession((session) => session.sees)
  const outlined = useSession((session) => session.outlined)
  const judging = useSession((session) => session.judging !== null)
  const backToCamera = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setSession({ look: 'camera' })
  }
  return (
    <nav className="looks" aria-label="View in the picture" onKeyDown={backToCamera}>
      {LOOKS.map((look) => (
        <button
          key={look}
          type="button"
          className="word"
          aria-pressed={look === shown}
          onClick={() => setSession({ look, wipe: null })}
        >
          {LOOK_WORDS[look]}
        </button>
      ))}
      <button
        type="button"
        className="word"
        aria-pressed={outlined}
        onClick={() => setSession({ outlined: !outlined })}
      >
        shadow edge
      </button>
      <button
        id={SEES_WORD}
        type="button"
        className="word"
        aria-pressed={sees !== null}
        onClick={() => setSession(sees === null ? { sees: FIRST_PLACE, judging: null, page: 'plan' } : { sees: null })}
      >
        what the cheek sees
      </button>
      <button
        id={JUDGE_WORD}
        type="button"
        className="word"
        aria-pressed={judging}
        onClick={() => setSession(judging ? { judging: null } : { judging: JUDGED_FIRST, sees: null, page: 'plan' })}
      >
        exposure
      </button>
    </nav>
  )
}
