import { lastChange } from './changed'
import { useDerived } from './derived'
import { isAnotherDocument } from './desks/another-set'
import { useHistory, useSession } from './store'

/** What the last step changed for the eye, once both sets are read; while they are not, its line is kept. */
export function SinceLastStep() {
  const history = useHistory((all) => all)
  const selected = useSession((session) => session.selected)
  const isRead = useDerived(({ read }) => read?.settled === true && read.of === history.present)
  const [step] = history.past.slice(-1)
  if (!step || isAnotherDocument(step.state, history.present)) return null
  const changed = isRead ? lastChange(history, selected) : null
  return (
    <p className="since">
      <b>{changed?.step ?? step.name}:</b> {changed ? changed.words : isRead ? NOT_READ : 'reading what it changes'}.
    </p>
  )
}

/** A hand may go on before the light of where it was has been read. */
const NOT_READ = 'not compared, as the set before it changed again before its light was read'
