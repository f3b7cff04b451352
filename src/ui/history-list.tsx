import { Opens } from './controls/opens'
import { jump, useHistory } from './store'

/** Every step by its name, the newest first; the one that made the set as it stands is marked, and each can be gone to. */
export function HistoryList() {
  const history = useHistory((all) => all)
  const { past, future } = history
  if (past.length + future.length === 0) return null
  const names = ['undo all: as it was opened', ...past.map(({ name }) => name), ...future.map(({ name }) => name)]
  const entries = names.map((name, place) => ({ name, place })).reverse()
  return (
    <Opens word="history" className="history">
      {(close) =>
        entries.map(({ name, place }) => (
          <button
            key={place}
            type="button"
            className="word"
            aria-current={place === past.length ? 'step' : undefined}
            onClick={() => {
              close()
              jump(place)
            }}
          >
            {name}
          </button>
        ))
      }
    </Opens>
  )
}
