import { endWipe } from './wipe'

interface SidesProps {
  /** Of all sets that can be chosen. */
  readonly names: readonly string[]
  readonly left: string
  readonly right: string
  /** What is still to come, in words; null: both are drawn to the end. */
  readonly state: string | null
  onChoose(side: 'left' | 'right', name: string): void
}

const SIDES = ['left', 'right'] as const

/** Whose half it is, in the lower corners of the picture: each name chooses another set for its side. */
export function Sides({ names, state, onChoose, ...shown }: SidesProps) {
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape ends the comparison from its choices as from the divider
    <div
      className="sides"
      onKeyDown={({ key }) => {
        if (key === 'Escape') endWipe()
      }}
    >
      {SIDES.map((side) => (
        <select
          key={side}
          className="field"
          aria-label={`${side} of the divider`}
          value={shown[side]}
          onChange={(event) => onChoose(side, event.currentTarget.value)}
        >
          {names.map((name) => (
            <option key={name}>{name}</option>
          ))}
        </select>
      ))}
      {state && <span role="status">{state}</span>}
    </div>
  )
}
