import type { Sitting, StepWords } from '../sitting'
import { Opens } from './controls/opens'
import { jump, useHistory } from './store'

/** Every step by its name, the newest first; the one that made the set as it stands is marked, and each can be gone to. */
export function HistoryList() {
  const history = useHistory((all) => all)
  const { past, present, future } = history
  if (past.length + future.length === 0) return null
  const names = [undoAll(past[0]?.state ?? present, present), ...past.map(nameInFull), ...future.map(nameInFull)]
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

const nameInFull = ({ name, inFull }: StepWords): string => inFull ?? name

/** Takes that were kept since go with all the rest: they are named, more than one by their number. */
function undoAll(first: Sitting, { takes }: Sitting): string {
  const gone = takes.filter(({ name }) => first.takes.every((take) => take.name !== name))
  if (gone.length === 0) return 'undo all: as it was opened'
  return `undo all, and ${gone.length === 1 ? gone[0]!.name : `${gone.length} takes`}: as it was opened`
}
