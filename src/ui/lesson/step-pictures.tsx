import { type CSSProperties, useState } from 'react'
import { type LessonLook, type Shown, timesWords } from '../../lesson'
import type { Cell } from '../contact/contact-desk'
import { Print } from '../contact/print'
import { held } from '../held'
import { MARK_MM } from '../looks/edge-span'
import { Millimetres } from '../looks/ruler-edge'
import { Key, SpanKey, SpanMarks } from '../looks/span-marks'
import { isCropped, lookWords } from './look-words'
import { Blank, HIDDEN, isUnsettled, UNREAD, Unsettled } from './prose'
import { valueWords } from './step-words'
import type { States } from './use-states'

interface PicturesProps {
  readonly sets: readonly string[]
  readonly hidden: readonly string[]
  readonly readings: readonly Shown[]
  readonly looks: readonly LessonLook[]
  readonly states: States
  /** Place of the step: what was opened in another is shut. */
  readonly step: number
  /** Holds a state's pictures, large. */
  onLarger(set: string): void
}

/** States side by side, in order, each with its numbers, each to be had large; a hidden one is hatched. */
export function StepPictures({ sets, hidden, readings, looks, states, step, onLarger }: PicturesProps) {
  const figured = readings.some(tellsEdge)
  const inner = readings.some(tellsInner)
  const marked = sets.some((set) => !hidden.includes(set) && (states.cellOf(set, 'edge')?.span?.fullMm ?? 0) > MARK_MM)
  const turnsAway = sets.some((set) => !hidden.includes(set) && states.cellOf(set, 'edge')?.span?.ends[0] === 'hidden')
  return (
    <div className="lesson-shows">
      {looks.includes('edge') && (
        // Its room stays while there is no picture.
        <p className={sets.every((set) => hidden.includes(set)) ? 'span-note waits' : 'span-note'}>
          Ruler: at 0 the skin sees none of the lamp, at its end all.
          {inner && ' Its short lines leave out what the eye misses.'} <More key={step} inner={inner} />
          {/* Their room is there before an answer shows what they are about, so that no picture moves. */}
          <span style={seenIf(marked)}> {MARK_MM} mm a mark.</span>
          <span style={seenIf(turnsAway)}> Where its end is dark, the cheek turns away.</span>
        </p>
      )}
      {looks.includes('sees') && (
        <p className="span-note">Seen from the middle of the edge: lamp white, nose and cheek grey, ground black.</p>
      )}
      <ol
        className={`lesson-pictures ${placesOf(sets, looks)}`}
        style={roomOf(looks)}
        data-drawn={states.finished ? 'finished' : undefined}
      >
        {sets.map((set, i) => {
          const isHidden = hidden.includes(set)
          return (
            <li key={set}>
              <p className="name">
                <b>{i + 1}</b> {set}
                {!isHidden && (
                  <button
                    type="button"
                    className="word under larger"
                    aria-label={`larger: ${set}`}
                    onClick={() => onLarger(set)}
                  >
                    larger
                  </button>
                )}
              </p>
              <div className="shown">
                <div className="stack">
                  {looks.map((look) => (
                    <OnePicture
                      key={look}
                      set={set}
                      look={look}
                      isHidden={isHidden}
                      cell={states.cellOf(set, look)}
                      figured={figured}
                      inner={inner}
                    />
                  ))}
                </div>
                {readings.length > 0 && (
                  <dl>
                    {readings.map(({ says, reading, times }) => (
                      <div key={reading}>
                        <dt>{says}</dt>
                        <dd>
                          {times === undefined ? (
                            <Value set={set} states={states} id={reading} isHidden={isHidden} />
                          ) : (
                            <Times set={set} of={times} id={reading} hidden={hidden} states={states} />
                          )}
                        </dd>
                      </div>
                    ))}
                  </dl>
                )}
              </div>
            </li>
          )
        })}
      </ol>
    </div>
  )
}

const seenIf = (isSeen: boolean): CSSProperties => ({ visibility: isSeen ? 'visible' : 'hidden' })

/** The width that is marked in a crop: its figure stands there once the step tells it. */
const EDGE = /^edge\..+\.nose\.full$/
export const tellsEdge = ({ reading }: Shown): boolean => EDGE.test(reading)
/** What of it the eye sees: marked where the step tells it. */
const INNER = /^edge\..+\.tenToNinety$/
export const tellsInner = ({ reading }: Shown): boolean => INNER.test(reading)
/** Width over height of the middle of a crop that is shown: the style is told it. */
const CROP_SHOWN = 6 / 5

/** How the ruler counts, on demand. */
function More({ inner }: { inner: boolean }) {
  const [open, setOpen] = useState(false)
  return (
    <>
      <button type="button" className="word under" aria-expanded={open} onClick={() => setOpen(!open)}>
        how it counts
      </button>
      {open && (
        <span>
          {' '}
          As an eye on the cheek would see it: at 0 the lamp begins to come out from behind the nose, at the other end
          it is out. An edge may begin behind the nose, or end past the face: the ruler goes as far as the face. So that
          lamps can be compared, the width is counted as on skin that faces the lamp. On skin that slants, the shadow is
          spread out, as in a low sun, and the ruler’s millimetres with it.
          {inner && ' The short lines lead to where a tenth and nine tenths of the light are there.'}
        </span>
      )}
    </>
  )
}

/** How the pictures share the place, told to the style. */
function placesOf(sets: readonly string[], looks: readonly LessonLook[]): string {
  if (isBeside(sets, looks)) return 'beside'
  return sets.length > 4 && looks.length === 1 && isCropped(looks[0]!) ? 'threes' : ''
}

/** One or two states with a crop: it takes the width, the whole picture above it has all else beside it. */
const isBeside = (sets: readonly string[], looks: readonly LessonLook[]): boolean =>
  sets.length <= 2 && looks.length > 1 && looks[0] === 'camera' && isCropped(looks[1]!)

/** Told to the style, so that all looks of a state fit one above the other: their heights over their width, and what frames add, rem. */
function roomOf(looks: readonly LessonLook[]): CSSProperties {
  const crops = looks.filter(isCropped).length
  const heights = (looks.length - crops) * 1.5 + crops / CROP_SHOWN
  // An edge has two lines under it, other crops one.
  const frames = looks.length * 2.125 + crops * 1.0625 + (looks.includes('edge') ? 1.25 : 0)
  return {
    ['--heights' as string]: heights,
    ['--frames' as string]: `${frames}rem`,
    ['--shown' as string]: CROP_SHOWN,
  }
}

/** What the drawing of what the cheek sees is made of. */
export const SEEN = ['lamp', 'nose'] as const

interface OnePictureProps {
  readonly set: string
  readonly look: LessonLook
  readonly isHidden: boolean
  readonly cell: Cell | null
  readonly figured: boolean
  readonly inner: boolean
}

function OnePicture({ set, look, isHidden, cell, figured, inner }: OnePictureProps) {
  const crop = isCropped(look)
  if (isHidden)
    return (
      <div
        className={`hatched of-${look} ${crop ? 'crop ruled' : ''}`}
        role="img"
        aria-label={`picture of ${set}, ${HIDDEN}`}
      >
        {!crop && <span>after the prediction</span>}
      </div>
    )
  return (
    <div className={`lesson-print of-${look} ${crop ? 'crop ruled' : ''}`}>
      <Print bitmap={cell?.bitmap ?? null} name={crop ? `${set}, ${lookWords(look)}` : set}>
        {cell?.bitmap && cell.span && (
          <SpanMarks
            span={cell.span}
            aspect={cell.bitmap.width / cell.bitmap.height}
            shown={CROP_SHOWN}
            figured={figured}
            inner={inner}
          />
        )}
      </Print>
      {look === 'edge' && <SpanKey span={cell?.span ?? null} />}
      {look === 'sees' && <Key of={SEEN} />}
      {crop &&
        look !== 'edge' &&
        look !== 'sees' &&
        (cell?.widthMm != null ? (
          <Millimetres look={look} widthMm={cell.widthMm} />
        ) : (
          // Its room, so that nothing moves when it comes.
          <span className="ruler-edge" />
        ))}
    </div>
  )
}

interface TimesProps {
  readonly set: string
  /** The state that counts as one. */
  readonly of: string
  readonly id: string
  readonly hidden: readonly string[]
  readonly states: States
}

/** How many times as much as in another state: '2.7 times silver'. */
function Times({ set, of, id, hidden, states }: TimesProps) {
  if (hidden.includes(set) || hidden.includes(of)) return <Blank why={HIDDEN} />
  const [all, others] = [states.readingsOf(set), states.readingsOf(of)]
  if (all === null || others === null) return <Blank why={UNREAD} />
  if (set === of) return 'taken as 1'
  const [a, b] = [all, others].map((readings) => readings.find((reading) => reading.id === id))
  const words = a && b ? timesWords(a, b) : null
  if (words === null) return 'none'
  return (
    <>
      {[set, of].some((name) => isUnsettled(states, name, id)) && <Unsettled />}
      {held(`${words} ${of}`)}
    </>
  )
}

interface ValueProps {
  readonly set: string
  readonly states: States
  readonly id: string
  readonly isHidden: boolean
}

/** A reading, as shown, with a sign while it may still move; a ruled blank while it is hidden or not read. */
function Value({ set, states, id, isHidden }: ValueProps) {
  const all = states.readingsOf(set)
  if (isHidden) return <Blank why={HIDDEN} />
  if (all === null) return <Blank why={UNREAD} />
  const found = all.find((reading) => reading.id === id)
  if (!found) return id.startsWith('edge.') ? ALL_ROUND : 'none'
  return (
    <>
      {isUnsettled(states, set, id) && <Unsettled />}
      {held(valueWords(found))}
    </>
  )
}

/** Only a sky, which shines from all round, has no reading of an edge. */
const ALL_ROUND = 'wider than the face'
