import type { KeyboardEvent } from 'react'
import { LOOKS, type Look } from '../../rig'
import { FIRST_PLACE, JUDGE_WORD, SEES_WORD } from '../openers'
import { setSession, useSession } from '../store'

/** In the trade's words. */
export const LOOK_WORDS: Readonly<Record<Look, string>> = {
  camera: 'picture',
  eye: 'eye crop',
  cheek: 'cheek crop',
  edge: 'edge loupe',
  profile: 'profile',
}

/** What the picture carries when its exposure is judged. */
const JUDGED_FIRST = { map: false, clips: true }

/** Its profile stands where the others stand that open beside the picture. */
const LOUPE = { look: 'edge', sees: null, judging: null, page: 'plan' } as const
const notLoupe = (look: Look) => (look === 'edge' ? { look: 'camera' as const } : {})

/** What the picture shows, the page's and no part of the sitting: first the view, then, set apart, what is drawn over it or opened beside it. */
export function Looks() {
  const shown = useSession((session) => session.look)
  const sees = useSession((session) => session.sees)
  const outlined = useSession((session) => session.outlined)
  const judging = useSession((session) => session.judging !== null)
  const backToCamera = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setSession({ look: 'camera' })
  }
  return (
    <nav className="looks" aria-label="View in the picture" onKeyDown={backToCamera}>
      {/* biome-ignore lint/a11y/useSemanticElements: a row of words is no form */}
      <div className="views" role="group" aria-label="view">
        {LOOKS.map((look) => (
          <button
            key={look}
            type="button"
            className="word"
            aria-label={LOOK_WORDS[look]}
            aria-pressed={look === shown}
            onClick={() => setSession(look === 'edge' ? LOUPE : { look })}
          >
            {LOOK_WORDS[look].replace(/ crop$|^edge /, '')}
          </button>
        ))}
      </div>
      {/* biome-ignore lint/a11y/useSemanticElements: a row of words is no form */}
      <div className="with" role="group" aria-label="over the picture, or beside it">
        <button
          type="button"
          className="word"
          aria-pressed={outlined}
          onClick={() => setSession({ outlined: !outlined })}
        >
          edge’s middle
        </button>
        <button
          id={SEES_WORD}
          type="button"
          className="word"
          aria-pressed={sees !== null}
          onClick={() =>
            setSession(
              sees === null ? { ...notLoupe(shown), sees: FIRST_PLACE, judging: null, page: 'plan' } : { sees: null },
            )
          }
        >
          what the cheek sees
        </button>
        <button
          id={JUDGE_WORD}
          type="button"
          className="word"
          aria-pressed={judging}
          onClick={() =>
            setSession(
              judging ? { judging: null } : { ...notLoupe(shown), judging: JUDGED_FIRST, sees: null, page: 'plan' },
            )
          }
        >
          exposure
        </button>
      </div>
    </nav>
  )
}
