import { useMemo } from 'react'
import { type SetFigures, seenDifference, setFigures } from '../../readings'
import {
  type Sitting,
  type Source,
  sourcePlace,
  VARIANT_ROWS,
  type Variant,
  type VariantLabel,
  type VariantRow,
  variantsOf,
} from '../../sitting'
import { useMarks } from '../derived'
import { type Contact, edit, select, setSession, useSession, useSitting } from '../store'
import { formatAngle, formatLength, type LengthUnits } from '../values'
import { type Cell, useContact } from './contact-desk'
import { Over } from './over'
import { Print } from './print'
import { useDrawn } from './use-drawn'

/** Id of the word that opens it: the focus goes back there. */
export const CONTACT_WORD = 'contact-word'
const TITLE = 'contact-title'

/** Variants of the set side by side, each with its numbers; in place of the working surface while it is open. */
export function ContactSheet() {
  const contact = useSession((session) => session.contact)
  return contact && <Sheet contact={contact} />
}

const close = (): void => {
  setSession({ contact: null })
  requestAnimationFrame(() => document.getElementById(CONTACT_WORD)?.focus())
}

function Sheet({ contact }: { contact: Contact }) {
  const sitting = useSitting()
  const selected = useSession((session) => session.selected)
  const units = useSession((session) => session.units)
  const marks = useMarks()
  const source = sitting.sources.find(({ id, on }) => on && id === selected) ?? sitting.sources.find(({ on }) => on)
  const variants = useMemo(
    () => (marks && source ? variantsOf(sitting, source.id, contact.row, marks) : []),
    [marks, source, sitting, contact.row],
  )
  const sittings = useMemo(
    () => variants.map((variant) => alike(variant.sitting, contact.equal)),
    [variants, contact.equal],
  )
  const now = variants.findIndex(({ isNow }) => isNow)
  // Light by light, and at equal power, all are seen as the set as it stands is exposed.
  const shared = contact.equal === 'power' || contact.row === 'sources one by one'
  const cells = useDrawn(sittings, units, shared && now >= 0 ? now : null)
  return (
    <Over titled={TITLE} onClose={close}>
      <Head contact={contact} source={source} sitting={sitting} units={units} />
      {!source && <p className="said">No source is on: there is nothing to vary.</p>}
      {source && variants.length === 0 && (
        <p className="said">{`${source.letter} has nothing of the kind to vary. Choose another row.`}</p>
      )}
      {source && variants.length > 0 && (
        <Cells
          variants={variants}
          cells={cells}
          letter={source.letter}
          units={units}
          sitting={sitting}
          showsEnergy={!shared}
        />
      )}
    </Over>
  )
}

/** By the meter all pictures are equally exposed, whether powers or the f-number give way. */
const alike = (sitting: Sitting, equal: Contact['equal']): Sitting =>
  equal === 'exposure' && sitting.reExpose === 'nothing' ? { ...sitting, reExpose: 'powers' } : sitting

interface HeadProps {
  readonly contact: Contact
  readonly source: Source | undefined
  readonly sitting: Sitting
  readonly units: LengthUnits
}

function Head({ contact, source, sitting, units }: HeadProps) {
  const lit = sitting.sources.filter(({ on }) => on)
  const say = (change: Partial<Contact>) => setSession({ contact: { ...contact, ...change } })
  return (
    <header className="contact-head">
      <h2 id={TITLE}>Contact sheet</h2>
      {source && <Whereabouts source={source} sitting={sitting} units={units} />}
      {lit.length > 1 && (
        <select
          className="field"
          aria-label="source that is varied"
          value={source?.id}
          onChange={(event) => select(event.currentTarget.value)}
        >
          {lit.map(({ id, letter }) => (
            <option key={id} value={id}>{`source ${letter}`}</option>
          ))}
        </select>
      )}
      <div className="equals">
        {(['exposure', 'power'] as const).map((equal) => (
          <button
            key={equal}
            type="button"
            className="word"
            aria-pressed={contact.equal === equal}
            onClick={() => say({ equal })}
          >{`equal ${equal}`}</button>
        ))}
      </div>
      <fieldset className="rows">
        <legend className="unseen">What is varied</legend>
        {VARIANT_ROWS.map((row: VariantRow) => (
          <button
            key={row}
            type="button"
            className="word"
            aria-pressed={contact.row === row}
            onClick={() => say({ row })}
          >
            {ROW_WORDS[row] ?? row}
          </button>
        ))}
      </fieldset>
      <button type="button" className="word" onClick={close}>
        close
      </button>
    </header>
  )
}

const ROW_WORDS: Partial<Record<VariantRow, string>> = { 'modifiers, near': 'modifiers, each near' }

function Whereabouts({ source, sitting, units }: { source: Source; sitting: Sitting; units: LengthUnits }) {
  const marks = useMarks()
  if (!marks) return null
  const { azimuthFromLensDeg, elevationDeg, tapeM } = sourcePlace(source, sitting.camera, marks)
  const round = formatAngle(azimuthFromLensDeg, ['right', 'left'])
  return (
    <p className="whereabouts">
      {`${source.letter} now: ${round}, ${formatAngle(elevationDeg, ['up', 'down'])}, tape ${formatLength(tapeM, units)}.`}
    </p>
  )
}

interface CellsProps {
  readonly variants: readonly Variant[]
  readonly cells: readonly Cell[]
  readonly letter: string
  readonly units: LengthUnits
  readonly sitting: Sitting
  /** Each picture has the energy that exposes it. */
  readonly showsEnergy: boolean
}

function Cells({ variants, cells, letter, units, sitting, showsEnergy }: CellsProps) {
  const fault = useContact((state) => state.fault)
  const figures = variants.map((variant, i) => {
    const readings = cells[i]?.readings
    return readings ? setFigures(readings, variant.alone ?? letter) : null
  })
  const nowIndex = variants.findIndex(({ isNow }) => isNow)
  const { sensorWidthMm, sensorHeightMm } = sitting.camera
  return (
    <>
      {fault && <p className="said">{fault}</p>}
      <ul className="cells" style={{ ['--aspect' as string]: sensorWidthMm / sensorHeightMm }}>
        {variants.map((variant, i) => {
          const name = labelWords(variant.label, units)
          return (
            <li key={name} aria-label={name} data-now={variant.isNow || undefined}>
              <Print bitmap={cells[i]?.bitmap ?? null} name={name} />
              <Caption
                name={name}
                variant={variant}
                figures={figures[i] ?? null}
                now={cells[nowIndex]?.settled ? (figures[nowIndex] ?? null) : null}
                settled={cells[i]?.settled ?? false}
                showsEnergy={showsEnergy}
              />
            </li>
          )
        })}
      </ul>
    </>
  )
}

function labelWords(label: VariantLabel, units: LengthUnits): string {
  if (label.kind === 'words') return label.words
  return label.kind === 'length' ? formatLength(label.metres, units) : formatAngle(label.degrees)
}

interface CaptionProps {
  readonly name: string
  readonly variant: Variant
  readonly figures: SetFigures | null
  /** Of the set as it stands, once it is read to the end. */
  readonly now: SetFigures | null
  /** Until the room's light is read, what depends on it is left open. */
  readonly settled: boolean
  readonly showsEnergy: boolean
}

function Caption({ name, variant, figures, now, settled, showsEnergy }: CaptionProps) {
  return (
    <div className="caption">
      <p className="name">
        <b>{name}</b> {looks(figures)}
      </p>
      {figures ? (
        <>
          <p className="edge">
            {figures.edgeMm === null ? (
              'no full shadow'
            ) : (
              <>
                <span className="value">{millimetres(figures.edgeMm)}</span> mm edge
                {figures.tenToNinetyMm !== null && `, ${millimetres(figures.tenToNinetyMm)} from 10 to 90 %`}
              </>
            )}
          </p>
          <p className="verdict">{verdict(variant, settled ? figures : null, now)}</p>
          <p>{numbers(figures, settled, showsEnergy)}</p>
        </>
      ) : (
        <p>reading</p>
      )}
      {!variant.isNow && (
        <button
          type="button"
          className="word under"
          aria-label={`take up ${name}`}
          onClick={() => {
            edit(`${name}, from the contact sheet`, () => variant.sitting)
            close()
          }}
        >
          take up
        </button>
      )}
    </div>
  )
}

/** How large the source looks from the near cheek, width × height: an edge of a shadow goes by what lies across it. */
function looks(figures: SetFigures | null): string {
  const [wide, high] = [figures?.acrossDeg, figures?.highDeg]
  if (wide == null) return ''
  return `looks ${wide.toFixed(wide < 2 ? 1 : 0)}${high == null ? '' : ` × ${high.toFixed(high < 2 ? 1 : 0)}`}°`
}

const millimetres = (mm: number): string => (mm < 10 ? mm.toFixed(1) : mm.toFixed(0))

function verdict({ isNow, alone }: Variant, figures: SetFigures | null, now: SetFigures | null): string {
  if (isNow) return 'the set as it stands'
  if (alone !== null) return 'exposed as the whole set is'
  if (!now || !figures) return 'reading the room'
  const seen = seenDifference(now, figures)
  return seen.length === 0 ? 'no visible difference of the light' : seen.slice(0, 2).join(', ')
}

function numbers(
  { lossStops, energyJ, shadowStops, backdropStops }: SetFigures,
  settled: boolean,
  showsEnergy: boolean,
): string {
  const stops = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(1)}`
  const parts = [
    lossStops === null ? null : `loses ${Math.abs(lossStops).toFixed(1)} stops`,
    energyJ === null || !settled || !showsEnergy ? null : `${energyJ.toFixed(energyJ < 10 ? 1 : 0)} J`,
    shadowStops === null || !settled ? null : `shadow ${stops(shadowStops)}`,
    backdropStops === null || !settled ? null : `backdrop ${stops(backdropStops)} stops`,
  ]
  return parts.filter((part) => part !== null).join(' · ')
}
