import { setSession } from '../store'
import { WALK_WORD } from './orbit'

/** The plan comes back, and the focus to the word that had opened the walk. */
export function closeWalk(): void {
  setSession({ walking: false })
  requestAnimationFrame(() => document.getElementById(WALK_WORD)?.focus())
}

/** In the walk's place while it is fetched. */
export function WalkSoon() {
  return (
    <section className="walk" aria-label="Walk round, being fetched">
      <div className="sees-head">
        <h2>Walk round</h2>
        <button type="button" className="word" onClick={closeWalk}>
          close
        </button>
      </div>
      <p className="said">drawing</p>
    </section>
  )
}
