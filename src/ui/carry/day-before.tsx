import type { SetUpSheet } from '../../sheet'
import { contentOf, type Day, type DayChange, type Days, goneOnWith } from './day-store'

interface BeforeProps {
  readonly days: Days
  readonly sheet: SetUpSheet
  readonly day: Day
  change(how: DayChange): void
}

/** Days of other states: of this sitting before it was changed, in sight; of other sittings on demand. Each can be gone on with. */
export function Before({ days, sheet, day, change }: BeforeProps) {
  const others = Object.entries(days)
    .filter(([version, other]) => version !== sheet.version && version !== day.from && contentOf(other) !== '')
    .sort(([, a], [, b]) => (a.at ?? '').localeCompare(b.at ?? '') * -1)
  const list = (some: typeof others) => (
    <ul className="day-before">
      {some.map(([version, other]) => (
        <li key={version}>
          {`${other.title}, ${dateWords(other)}sheet ${version}: ${contentOf(other)} `}
          <button
            type="button"
            className="word under"
            aria-label={`go on with ${other.title}, sheet ${version}`}
            onClick={() => change(goneOnWith(version, other))}
          >
            go on with it here
          </button>
        </li>
      ))}
    </ul>
  )
  const own = others.filter(([, { title }]) => title === sheet.title)
  const rest = others.filter(([, { title }]) => title !== sheet.title)
  return (
    <>
      {own.length > 0 && (
        <>
          <p>This sitting was another when this was ticked and typed for it:</p>
          {list(own)}
        </>
      )}
      {rest.length > 0 && (
        <details className="day-list">
          <summary>Typed for other sittings: {rest.length}</summary>
          {list(rest)}
        </details>
      )}
    </>
  )
}

const dateWords = ({ at }: Day): string => (at ? `${at.slice(0, 16).replace('T', ' ')} UTC, ` : '')
