import { endWipe } from './wipe'

interface SidesProps {
  /** Of all takes. */
  readonly names: readonly string[]
  readonly left: string
  /** A take's name, or what the set is called that is none. */
  readonly right: string
  /** The side whose picture is still drawn. */
  readonly drawing: string | null
  /** Percent of the right side's samples that the left one's picture has; null: as many. */
  readonly behind: number | null
  /** The left one is drawn on until it has as many. */
  onDrawOn(): void
  onChoose(side: 'first' | 'second', name: string): void
}

const SIDES = [
  { side: 'first', where: 'left' },
  { side: 'second', where: 'right' },
] as const

/** Whose half it is, in the lower corners of the picture: each name chooses another take for its side. */
export function Sides({ names, left, right, drawing, behind, onDrawOn, onChoose }: SidesProps) {
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape ends the comparison from its choices as from the divider
    <div
      className="sides"
      onKeyDown={({ key }) => {
        if (key === 'Escape') endWipe()
      }}
    >
      {SIDES.map(({ side, where }) => {
        const shown = side === 'first' ? left : right
        return (
          <select
            key={side}
            className="field"
            aria-label={`take ${where} of the divider`}
            value={shown}
            onChange={(event) => onChoose(side, event.currentTarget.value)}
          >
            {(names.includes(shown) ? names : [...names, shown]).map((name) => (
              <option key={name}>{name}</option>
            ))}
          </select>
        )
      })}
      {drawing && <span role="status">{`drawing ${drawing}`}</span>}
      {!drawing && behind !== null && (
        <button type="button" className="word" onClick={onDrawOn}>
          {`left at ${behind} % of the right’s samples: draw on`}
        </button>
      )}
    </div>
  )
}
