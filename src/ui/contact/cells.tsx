import { useState } from 'react'
import { liningWords } from '../../gear'
import { differenceOf, type SetFigures, setFigures, tintBetween, verdictOf } from '../../readings'
import type { Sitting, Variant, VariantLabel } from '../../sitting'
import { useDerived } from '../derived'
import { held } from '../held'
import { LOOK_WORDS } from '../looks/looks'
import { SpanMarks, shownFor } from '../looks/span-marks'
import { edit } from '../store'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { type Cell, useContact } from './contact-desk'
import { Figures, Told } from './figures'
import { useCloseFirst } from './over'
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
  /** What each could not be set up for, in words; null: nothing is in the way. */
  readonly cautions: readonly (string | null)[]
  /** The pictures show the edge of the nose's shadow, enlarged. */
  readonly enlarged: boolean
  readonly units: LengthUnits
  readonly sitting: Sitting
  /** Whether a source is what is varied: then its size as seen is told, and what it is lined with. */
  readonly ofSource: boolean
  /** Whether each has a modifier of its own, so that it tells what that is lined with. */
  readonly tellsLining: boolean
  /** All are seen as the set as it stands is exposed, and not each by its own meter. */
  readonly shared: boolean
  /** Place of the one with which the others are compared; −1: none. */
  readonly against: number
  /** Whether two of them can stand in one frame as they are here. */
  readonly canWipe: boolean
  onAgainst(place: number): void
  onClose(): void
}

/**
 * Width over height of the middle of an edge crop that is shown, at most: as much as rulers of usual edges need, so that a row seldom
 * grows as they come, and its numbers are in sight under it.
 */
const EDGE_SHOWN = 7 / 8

export function Cells(props: CellsProps) {
  const { variants, cells, letter, tapes, cautions, units, sitting, ofSource, shared, against, enlarged } = props
  const fault = useContact((state) => state.fault)
  const [told, setTold] = useState<Variant | null>(null)
  const why = told ? variants.indexOf(told) : -1
  const figures = variants.map((variant, i) => figuresOf(cells[i], variant.alone ?? letter, shared))
  const names = variants.map(({ label }) => labelWords(label, units))
  const isRead = cells[against]?.settled
  const aspect = sitting.camera.sensorWidthMm / sitting.camera.sensorHeightMm
  const spans = cells.flatMap(({ span }) => span ?? [])
  const shown = shownFor(spans, aspect, EDGE_SHOWN)
  const unfit = variants.map((_, i) => cautions[i] ?? (cells[i]?.walls ? `Does not fit. ${cells[i].walls}` : null))
  const hide = () => setTold(null)
  useCloseFirst(why >= 0 ? hide : null)
  return (
    <>
      {fault && <p className="said">{fault}</p>}
      <ul
        className="cells"
        style={{ ['--aspect' as string]: enlarged ? shown : aspect, ['--count' as string]: variants.length }}
      >
        {variants.map((variant, i) => {
          const name = names[i]!
          const settled = cells[i]?.settled ?? false
          const span = cells[i]?.span
          return (
            <li
              key={name}
              aria-label={name}
              data-now={variant.isNow || undefined}
              data-against={i === against || undefined}
              data-unfit={unfit[i] !== null || undefined}
            >
              <Print bitmap={cells[i]?.bitmap ?? null} name={enlarged ? `${name}, ${LOOK_WORDS.edge}` : name}>
                {enlarged && span && (
                  <SpanMarks span={span} aspect={aspect} shown={shown} figured={false} inner={false} />
                )}
              </Print>
              <div className="caption">
                <p className="name">
                  <b>{held(name)}</b>{' '}
                  {[props.tellsLining && liningOf(variant.sitting, letter), tapes?.[i]].filter(Boolean).join(', ')}
                </p>
                {unfit[i] && (
                  <p className="caution">
                    <b>{held(unfit[i])}</b>
                  </p>
                )}
                {!unfit[i] && cells[i]?.inFrame && <p className="caution">{cells[i].inFrame}</p>}
                <Figures
                  name={name}
                  letter={ofSource ? letter : null}
                  figures={figures[i] ?? null}
                  settled={settled}
                  isTold={i === why}
                  onWhy={() => setTold(i === why ? null : variant)}
                >
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
                </Figures>
                <Actions {...props} place={i} names={names} isUnfit={unfit[i] !== null} />
              </div>
            </li>
          )
        })}
      </ul>
      {why >= 0 && (
        <Told
          name={names[why]!}
          letter={ofSource ? letter : null}
          figures={figures[why] ?? null}
          against={why === against ? null : (figures[against] ?? null)}
          showsEnergy={!shared && (cells[why]?.settled ?? false)}
          sum={edgeSum(cells[why], told?.alone ?? letter)}
          onHide={hide}
        />
      )}
    </>
  )
}

const figuresOf = (cell: Cell | undefined, letter: string, shared: boolean): SetFigures | null =>
  cell?.readings
    ? setFigures(cell.readings, letter, shared ? { fNumber: 1, raisedStops: cell.exposure?.factorStops ?? 0 } : null)
    : null

const edgeSum = (cell: Cell | undefined, letter: string): string | null =>
  cell?.readings?.find(({ id }) => id === `edge.${letter}.nose.full`)?.why.filled ?? null

export function labelWords(label: VariantLabel, units: LengthUnits): string {
  if (label.kind === 'words') return label.words
  return label.kind === 'length' ? formatLength(label.metres, units) : formatAngle(label.degrees)
}

interface ActionsProps extends CellsProps {
  readonly place: number
  readonly names: readonly string[]
  readonly isUnfit: boolean
}

/** What can be done with one of them. */
function Actions(props: ActionsProps) {
  const { variants, sets, sitting, place, names, isUnfit, against, canWipe, onAgainst, onClose } = props
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const variant = variants[place]!
  const [name, other] = [names[place]!, names[against]]
  const use = isUnfit ? 'use it all the same' : 'use this one'
  return (
    <p className="actions">
      {!variant.isNow && (
        <button
          type="button"
          className="word under"
          aria-label={`${use}: ${name}`}
          onClick={() => {
            edit(`${name}, from the contact sheet`, () => variant.sitting)
            onClose()
          }}
        >
          {use}
        </button>
      )}
      {place !== against && variant.alone === null && (
        <button
          type="button"
          className="word under"
          aria-label={`make it the reference: compare the others with ${name}`}
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
            const halfAt = (i: number) => (sets[i] === sitting ? null : { name: names[i]!, sitting: sets[i]! })
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

function verdict(
  { alone, sitting }: Variant,
  figures: SetFigures | null,
  other: Sitting | undefined,
  against: SetFigures | null,
): string {
  if (alone !== null) return 'exposed as the whole set is'
  if (!against || !figures || !other) return 'reading the room'
  return held(verdictOf(differenceOf(against, figures, tintBetween(other, sitting))))
}

const liningOf = ({ sources }: Sitting, letter: string): string | null => {
  const source = sources.find((one) => one.letter === letter)
  return source ? liningWords(source.modifier) : null
}
