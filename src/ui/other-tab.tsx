import { openText } from './files'
import { leaveOther, useOtherTabs } from './other-tabs'

/** Another tab has changed its sitting while another state lies here: it can be taken, as a step that undo takes back. */
export function OtherTab() {
  const offered = useOtherTabs((tabs) => tabs.offered)
  if (offered === null) return null
  const take = () => {
    leaveOther()
    openText('The other tab’s sitting', offered)
  }
  return (
    <p className="caution" role="status">
      Another tab has changed its sitting. Both are kept, one under the other in the history.{' '}
      <button type="button" className="word under" onClick={take}>
        take it here
      </button>{' '}
      <button type="button" className="word under" onClick={leaveOther}>
        leave it there
      </button>
    </p>
  )
}
