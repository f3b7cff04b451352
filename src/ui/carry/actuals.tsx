import { fixedPointsOf } from '../../paper'
import { dialOf } from '../../readings'
import { placeLandmarks } from '../../rig'
import { differs, type SetUpSheet, type SheetInput, spotOf, stands, whatToChange } from '../../sheet'
import { placeOf } from '../../sitting'
import { useSession } from '../store'
import { formatLength, formatStops, type LengthUnits } from '../values'
import type { Day, DayChange } from './day-store'
import { measuredOf, type Read, readTyped, typedAt } from './measured'

interface ActualsProps {
  readonly input: SheetInput
  readonly sheet: SetUpSheet
  readonly day: Day
  change(how: DayChange): void
}

/** Actual distances, heights, dials and readings, each with its difference and what to change. */
export function Actuals({ input, sheet, day, change }: ActualsProps) {
  const units = useSession((session) => session.units)
  const type = (name: string, text: string) =>
    change((now) => ({
      ...now,
      typed: { ...now.typed, [name]: text },
      typedIn: { ...now.typedIn, [name]: units },
    }))
  const box = (name: string, label: string, plan: string, says: (value: number) => string) => {
    const text = typedAt(day, name, units)
    const read = readTyped(name, text, input, units)
    return (
      <Actual
        key={name}
        label={label}
        plan={plan}
        text={text}
        read={read}
        says={says}
        onText={(next) => type(name, next)}
      />
    )
  }
  const length = (name: string, label: string, plan: number, ways: readonly [string, string] = DISTANCE) =>
    box(name, label, shown(plan, units), (value) => apart(value - plan, units, ways))
  const measured = measuredOf(day, sheet, input, units)
  return (
    <>
      <h4>Tapes</h4>
      <Heads />
      <p>{`X is on the floor under the sitter’s eyes, Z ${fixedPointsOf(input.sitting).zIs === 'under the lens' ? 'plumb under the lens' : 'at the foot of the backdrop, straight behind'}.`}</p>
      {sheet.tape.map((row) => {
        const spot = spotOf(input.sitting, row, measured)
        const isTyped = measured.tapes[row.id]?.fromXM !== undefined && measured.tapes[row.id]?.fromZM !== undefined
        return (
          <fieldset key={row.id} className="day-row">
            <legend>{row.name}</legend>
            {length(`tape.${row.id}.x`, 'from X', row.fromXM)}
            {length(`tape.${row.id}.z`, 'from Z', row.fromZM)}
            {isTyped && !spot && <p role="status">These two tapes do not meet: read them again.</p>}
            {isTyped && spot && <p role="status">{off(spot[0] - row.at[0], spot[1] - row.at[1])}</p>}
          </fieldset>
        )
      })}
      <h4>Sources</h4>
      <Heads />
      {input.rig.sources
        .filter((source) => stands(input.sitting, source))
        .map((source) => {
          const { head } = input.sitting.sources.find(({ id }) => id === source.id)!
          const place = placeOf(source.frame.origin, input.sitting.camera, placeLandmarks(input.rig.figures[0]))
          const dial = input.exposure.perSourceStops[source.id] ?? head.powerStops
          return (
            <fieldset key={source.id} className="day-row">
              <legend>
                {source.letter}, {source.role}
              </legend>
              {length(`distance.${source.id}`, `to ${place.tapeTo}`, place.tapeM)}
              {length(`height.${source.id}`, 'centre height', source.frame.origin[1], HEIGHT)}
              {box(`dial.${source.id}`, 'power', dialOf(head, dial), (value) => stopsOff(value - dial))}
            </fieldset>
          )
        })}
      <h4>Meter</h4>
      <Heads />
      {sheet.meters.map((row) =>
        box(`meter.${row.id}`, row.name, row.plan, (value) => {
          const stops = differs(row, value)
          return stops === null ? '' : `${formatStops(stops)}: ${whatToChange(input, row, value)}`
        }),
      )}
      {sheet.backdrop && (
        <fieldset className="day-row">
          <legend>Backdrop, stops against the near cheek</legend>
          {sheet.backdrop
            .flat()
            .filter(({ value }) => value !== null)
            .map((row) =>
              box(`meter.${row.id}`, row.name.replace('backdrop ', ''), row.plan, (value) =>
                stopsOff(differs(row, value) ?? 0),
              ),
            )}
        </fieldset>
      )}
    </>
  )
}

/** Over the columns of the boxes, which say themselves what they are of. */
const Heads = () => (
  <p className="day-actual" aria-hidden="true">
    <span />
    <span>plan</span>
    <span>actual</span>
  </p>
)

const shown = (metres: number, units: LengthUnits): string => formatLength(metres, units)

const DISTANCE = ['too far', 'too near'] as const
const HEIGHT = ['too high', 'too low'] as const

/** Under half a centimetre is as planned. */
const apart = (metres: number, units: LengthUnits, [more, less]: readonly [string, string]): string =>
  Math.abs(metres) < 0.005
    ? 'as planned'
    : `${units === 'metres' ? `${Math.round(Math.abs(metres) * 100)} cm` : `${(Math.abs(metres) / 0.0254).toFixed(1)} in`} ${metres > 0 ? more : less}`

const stopsOff = (stops: number): string =>
  Math.abs(stops) < 0.05 ? 'as planned' : `${formatStops(stops)} from the plan`

/** How to bring a foot to its place: along the floor, in centimetres, as seen from the camera. */
function off(x: number, z: number): string {
  const cm = (m: number) => Math.round(Math.abs(m) * 100)
  const ways = [
    cm(x) > 0 ? `${cm(x)} cm to camera ${x > 0 ? 'left' : 'right'}` : '',
    cm(z) > 0 ? `${cm(z)} cm towards the ${z > 0 ? 'backdrop' : 'camera'}` : '',
  ].filter(Boolean)
  return ways.length > 0 ? `Move it ${ways.join(' and ')}.` : 'Stands as planned.'
}

interface ActualProps {
  readonly label: string
  readonly plan: string
  readonly text: string
  readonly read: Read | null
  says(value: number): string
  onText(text: string): void
}

function Actual({ label, plan, text, read, says, onText }: ActualProps) {
  return (
    <label className="day-actual">
      <span>{label}</span>
      <span>{plan}</span>
      <input
        className="field"
        autoComplete="off"
        value={text}
        aria-invalid={read?.ok === false || undefined}
        onChange={(event) => onText(event.currentTarget.value)}
      />
      <output>{read === null ? '' : read.ok ? says(read.value) : read.message}</output>
    </label>
  )
}
