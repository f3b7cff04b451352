import { liningWords } from '../../gear'
import { differenceOf, type SetFigures, setFigures, tintBetween, verdictOf } from '../../readings'
import type { Sitting, Variant, VariantLabel } from '../../sitting'
import { useDerived } from '../derived'
import { edit } from '../store'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { type Cell, useContact } from './contact-desk'
import { Print } from './print'
import { wipeVariants } from './wipe-variants'

interface CellsProps {
  readonly variants: readonly Variant[]
  /** Each as it is exposed here. */
  readonly sets: readonly Sitting[]
  readonly cells: readonly Cell[]
  readonly letter: string
  /** How far off each stands, in words; null: all alike, or told by its name. */
  readonly tapes: readonly string[] | null
  readonly units: LengthUnits
  readonly sitting: Sitting
  /** Whether a source is what is varied: then its size as seen is told, and what it is lined with. */
  readonly ofSource: boolean
  /** All are seen as the set as it stands is exposed, and not each by its own meter. */
  readonly shared: boolean
  /** Place of the one with which the others are compared; −1: none. */
  readonly against: number
  /** Whether two of them can stand in one frame as they are here. */
  readonly canWipe: boolean
  onAgainst(place: number): void
  onClose(): void
}

export function Cells(props: CellsProps) {
  const { variants, cells, letter, tapes, units, sitting, ofSource, shared, against } = props
  const fault = useContact((state) => state.fault)
  const figures = variants.map((variant, i) => figuresOf(cells[i], variant.alone ?? letter, shared))
  const names = variants.map(({ label }) => labelWords(label, units))
  const isRead = cells[against]?.settled
  const { sensorWidthMm, sensorHeightMm } = sitting.camera
  return (
    <>
      {fault && <p className="said">{fault}</p>}
      <ul
        className="cells"
        style={{ ['--aspect' as string]: sensorWidthMm / sensorHeightMm, ['--count' as string]: variants.length }}
      >
        {variants.map((variant, i) => {
          const name = names[i]!
          const settled = cells[i]?.settled ?? false
          return (
            <li
              key={name}
              aria-label={name}
              data-now={variant.isNow || undefined}
              data-against={i === against || undefined}
            >
              <Print bitmap={cells[i]?.bitmap ?? null} name={name} />
              <div className="caption">
                <Figures
                  name={name}
                  facts={ofSource ? [liningOf(variant.sitting, letter), tapes?.[i], looks(figures[i], letter)] : []}
                  figures={figures[i] ?? null}
                  settled={settled}
                  showsEnergy={!shared}
                />
                <p className="verdict">
                  {i === against
                    ? `the reference${variant.isNow ? ', the set as it stands' : ''}: the others are compared with it`
                    : verdict(
                        variant,
                        settled ? figures[i]! : null,
                        variants[against]?.sitting,
                        isRead ? figures[against]! : null,
                      )}
                </p>
                <Actions {...props} place={i} names={names} />
              </div>
            </li>
          )
        })}
      </ul>
    </>
  )
}

const figuresOf = (cell: Cell | undefined, letter: string, shared: boolean): SetFigures | null =>
  cell?.readings
    ? setFigures(cell.readings, letter, shared ? { fNumber: 1, raisedStops: cell.exposure?.factorStops ?? 0 } : null)
    : null

export function labelWords(label: VariantLabel, units: LengthUnits): string {
  if (label.kind === 'words') return label.words
  return label.kind === 'length' ? formatLength(label.metres, units) : formatAngle(label.degrees)
}

interface FiguresProps {
  readonly name: string
  /** What stands behind the name. */
  readonly facts: readonly (string | null | undefined)[]
  readonly figures: SetFigures | null
  /** Until the room's light is read, what depends on it is left open. */
  readonly settled: boolean
  readonly showsEnergy: boolean
}

function Figures({ name, facts, figures, settled, showsEnergy }: FiguresProps) {
  return (
    <>
      <p className="name">
        <b>{name}</b> {facts.filter(Boolean).join(', ')}
      </p>
      {figures ? (
        <>
          <Edge {...figures} />
          <p>{numbers(figures, settled, showsEnergy)}</p>
        </>
      ) : (
        <p>reading</p>
      )}
    </>
  )
}

/** Large, as among the readings: the full width. Small, the part of it that the eye sees. */
function Edge({ edgeMm, isFull, tenToNinetyMm }: SetFigures) {
  if (edgeMm === null) return <p className="edge">no shadow edge on the cheek</p>
  const part = tenToNinetyMm === null ? '' : `, ${millimetres(tenToNinetyMm)} mm of it from 10 to 90 %`
  return (
    <p className="edge">
      <span className="value">{millimetres(edgeMm)}</span> {`mm wide shadow edge${part}`}
      {!isFull && '; wider than the nose, so no full shadow'}
    </p>
  )
}

/** What can be done with one of them. */
function Actions(props: CellsProps & { readonly place: number; readonly names: readonly string[] }) {
  const { variants, sets, sitting, place, names, against, canWipe, onAgainst, onClose } = props
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const variant = variants[place]!
  const [name, other] = [names[place]!, names[against]]
  return (
    <p className="actions">
      {!variant.isNow && (
        <button
          type="button"
          className="word under"
          aria-label={`use ${name}`}
          onClick={() => {
            edit(`${name}, from the contact sheet`, () => variant.sitting)
            onClose()
          }}
        >
          use this one
        </button>
      )}
      {place !== against && variant.alone === null && (
        <button
          type="button"
          className="word under"
          aria-label={`reference: compare the others with ${name}`}
          onClick={() => onAgainst(place)}
        >
          make it the reference
        </button>
      )}
      {place !== against && other !== undefined && drawn && canWipe && (
        <button
          type="button"
          className="word under"
          aria-label={`split picture: ${other} and ${name}`}
          onClick={() => {
            const halfAt = (i: number) =>
              sets[i] === sitting ? null : { name: names[i]!, sitting: { ...sets[i]!, takes: [] } }
            wipeVariants(halfAt(against), halfAt(place))
            onClose()
          }}
        >
          split picture
        </button>
      )}
    </p>
  )
}

/** How large the source looks from the near cheek, width × height: an edge of a shadow goes by what lies across it. */
function looks(figures: SetFigures | null | undefined, letter: string): string {
  const [wide, high] = [figures?.acrossDeg, figures?.highDeg]
  if (wide == null) return ''
  return `${letter} looks ${wide.toFixed(wide < 2 ? 1 : 0)}${high == null ? '' : `\u00a0×\u00a0${high.toFixed(high < 2 ? 1 : 0)}`}°`
}

const liningOf = ({ sources }: Sitting, letter: string): string | null => {
  const source = sources.find((one) => one.letter === letter)
  return source ? liningWords(source.modifier) : null
}

const millimetres = (mm: number): string => (mm < 10 ? mm.toFixed(1) : mm.toFixed(0))

function verdict(
  { alone, sitting }: Variant,
  figures: SetFigures | null,
  other: Sitting | undefined,
  against: SetFigures | null,
): string {
  if (alone !== null) return 'exposed as the whole set is'
  if (!against || !figures || !other) return 'reading the room'
  return verdictOf(differenceOf(against, figures, tintBetween(other, sitting)))
}

function numbers(
  { lossStops, energyJ, shadowStops, backdropStops }: SetFigures,
  settled: boolean,
  showsEnergy: boolean,
): string {
  const stops = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`
  const parts = [
    lossStops === null
      ? null
      : `${Math.abs(lossStops).toFixed(1)} stops ${lossStops < 0 ? 'less' : 'more'} than a plain dish`,
    energyJ === null || !settled || !showsEnergy ? null : `${energyJ.toFixed(energyJ < 10 ? 1 : 0)} J`,
    shadowStops === null || !settled ? null : `nose shadow ${stops(shadowStops)} stops`,
    backdropStops === null || !settled ? null : `backdrop ${stops(backdropStops)} stops`,
  ]
  return parts.filter((part) => part !== null).join(' · ')
}
