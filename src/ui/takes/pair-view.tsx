import { useMemo } from 'react'
import { differenceOf, differenceReasons, setFigures, tintBetween, verdictOf } from '../../readings'
import type { Look } from '../../rig'
import type { Sitting, Source } from '../../sitting'
import { type Cell, useContact } from '../contact/contact-desk'
import { Over } from '../contact/over'
import { Print } from '../contact/print'
import { useDrawn } from '../contact/use-drawn'
import { useDerived } from '../derived'
import { LOOK_WORDS } from '../looks/looks'
import { SpanMarks, shownFor } from '../looks/span-marks'
import { PAIR_WORD } from '../openers'
import type { Pair } from '../session-types'
import { setSession, useSession, useSitting } from '../store'
import { exposureNote } from './exposed'
import { type PairRow, pairRows, UNREAD } from './pair-rows'
import { chosen, nameOf, namesFor, startWipe } from './wipe'

const TITLE = 'pair-title'
const LOOKS = ['camera', 'edge'] as const satisfies readonly Look[]
/** Width over height of the middle of an edge crop that is shown, at most: the style is told it. */
const CROP_SHOWN = 3 / 2
/** Where the set without a panel was asked for. */
const IN_HAND = '.things [aria-pressed="true"]'

/** Two sets whole, side by side at one size, the edge of the nose's shadow under each, their numbers, and what differs in words. */
export function PairView({ pair }: { pair: Pair }) {
  const sitting = useSitting()
  const units = useSession((session) => session.units)
  const selected = useSession((session) => session.selected)
  const drawn = useDerived((derived) => derived.picture.kind !== 'failed')
  const fault = useContact((state) => state.fault)
  const { left, right, inHand } = pair
  const row = useMemo(() => {
    const sets = [left, right].map((half) => half?.sitting ?? sitting)
    return { sets: sets.flatMap((set) => LOOKS.map(() => set)), looks: sets.flatMap(() => LOOKS) }
  }, [left, right, sitting])
  const cells = useDrawn(row.sets, units, { looks: row.looks, isQuick: true })
  const sides = ([left, right] as const).map((half, i) => {
    const set = half?.sitting ?? sitting
    const source = sourceOf(set, selected)
    const [whole, edge] = [cells[LOOKS.length * i] ?? null, cells[LOOKS.length * i + 1] ?? null]
    const rows = pairRows(set, source, whole?.readings ?? null, whole?.settled ?? false, units)
    return { name: nameOf(half, sitting, inHand), set, source, whole, edge, rows }
  })
  const [one, two] = sides as [(typeof sides)[0], (typeof sides)[0]]
  const names = namesFor(sitting, pair)
  const aspectOf = ({ camera }: Sitting) => camera.sensorWidthMm / camera.sensorHeightMm
  const narrower = Math.min(...sides.map(({ set }) => aspectOf(set)))
  const shown = shownFor(
    sides.flatMap(({ edge }) => edge?.span ?? []),
    narrower,
    CROP_SHOWN,
  )
  const close = () => {
    setSession({ pair: null })
    requestAnimationFrame(() =>
      (document.getElementById(PAIR_WORD) ?? document.querySelector<HTMLElement>(IN_HAND))?.focus(),
    )
  }
  const note = exposureNote({ name: one.name, sitting: one.set }, { name: two.name, sitting: two.set })
  return (
    <Over titled={TITLE} className="pair" onClose={close}>
      <header className="contact-head">
        <h2 id={TITLE}>{`${one.name} | ${two.name}`}</h2>
        {drawn && (
          <button
            type="button"
            className="word"
            onClick={() => {
              close()
              startWipe(pair)
            }}
          >
            split picture
          </button>
        )}
        <button type="button" className="word" onClick={close}>
          close
        </button>
      </header>
      <p className="said" role="status">
        <b>{`${two.name} against ${one.name}:`}</b> {differs(one, two)}.
      </p>
      {(fault ?? note) && <p className="said law">{fault ?? note}</p>}
      <div className="pair-desk">
        <ul className="pair-sides" style={{ ['--aspect' as string]: narrower, ['--shown' as string]: shown }}>
          {(['left', 'right'] as const).map((side, i) => {
            const { name, whole, edge, set } = sides[i]!
            const aspect = aspectOf(set)
            return (
              <li key={side} aria-label={name} style={{ ['--aspect' as string]: aspect }}>
                <select
                  className="field"
                  aria-label={`on the ${side}`}
                  value={name}
                  onChange={(event) => setSession({ pair: chosen(pair, side, event.currentTarget.value) })}
                >
                  {names.map((each) => (
                    <option key={each}>{each}</option>
                  ))}
                </select>
                <Print bitmap={whole?.bitmap ?? null} name={name} />
                <div className="close-by">
                  <Print bitmap={edge?.bitmap ?? null} name={`${name}, ${LOOK_WORDS.edge}`}>
                    {edge?.bitmap && edge.span && (
                      <SpanMarks span={edge.span} aspect={aspect} shown={shown} figured={true} inner={false} />
                    )}
                  </Print>
                </div>
              </li>
            )
          })}
        </ul>
        <div className="pair-figures">
          <Numbers sides={sides} />
          {reasons(one, two).map((words) => (
            <p key={words}>{words}</p>
          ))}
        </div>
      </div>
    </Over>
  )
}

interface NumbersProps {
  readonly sides: readonly { readonly name: string; readonly rows: readonly PairRow[] }[]
}

/** The numbers of both, what differs in ink. */
function Numbers({ sides }: NumbersProps) {
  return (
    <table>
      <thead>
        <tr>
          <td />
          {sides.map(({ name }) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {sides[0]!.rows.map(({ label }, at) => {
          const texts = sides.map(({ rows }) => rows[at]!.text)
          const isUnlike = texts[0] !== texts[1] && !texts.includes(UNREAD)
          return (
            <tr key={label} data-differs={isUnlike || undefined}>
              <th scope="row">{label}</th>
              <td>{texts[0]}</td>
              <td>{texts[1]}</td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

/** Whose edge is looked at: what is selected where it is a source that is on, else the first that is. */
const sourceOf = ({ sources }: Sitting, selected: string | null): Source | null =>
  sources.find(({ id, on }) => on && id === selected) ?? sources.find(({ on }) => on) ?? null

interface Side {
  readonly name: string
  readonly set: Sitting
  readonly source: Source | null
  readonly whole: Cell | null
}

/** Of both, once their light is read; null: not yet, or there is none. */
function figuresOf(one: Side, two: Side) {
  const atPower = [one, two].every(({ set }) => set.reExpose === 'nothing')
  const [from, to] = [one, two].map(({ whole, source, set }) =>
    source && whole?.settled && whole.readings
      ? setFigures(whole.readings, source.letter, atPower ? { fNumber: set.camera.fNumber, raisedStops: 0 } : null)
      : null,
  )
  return from && to ? { from, to } : null
}

function differs(one: Side, two: Side): string {
  if (!one.source || !two.source) return 'no source is on in one of them'
  const figures = figuresOf(one, two)
  if (!figures) return 'reading the light of both'
  return verdictOf(differenceOf(figures.from, figures.to, tintBetween(one.set, two.set)))
}

/** Why, where it is one source of both that differs, or a panel beside one that does not. */
function reasons(one: Side, two: Side): readonly string[] {
  const figures = figuresOf(one, two)
  if (!figures || one.source?.letter !== two.source?.letter) return []
  const same = (part: (side: Side) => unknown) => JSON.stringify(part(one)) === JSON.stringify(part(two))
  const sameSource = same(({ source }) => source)
  if (sameSource && same(({ set }) => set.panels)) return []
  return differenceReasons(figures.to, figures.from, sameSource ? null : one.source!.letter, one.name)
}
