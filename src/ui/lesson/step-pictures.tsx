import type { CSSProperties } from 'react'
import { type Shown, timesWords, turnWords, withUnit } from '../../lesson'
import type { Reading } from '../../readings'
import { isCrop, type Look } from '../../rig'
import type { Cell } from '../contact/contact-desk'
import { Print } from '../contact/print'
import { MARK_MM } from '../looks/edge-span'
import { LOOK_WORDS } from '../looks/looks'
import { Millimetres } from '../looks/ruler-edge'
import { SpanMarks } from '../looks/span-marks'
import { Blank, HIDDEN, UNREAD } from './prose'
import type { States } from './use-states'

interface PicturesProps {
  readonly sets: readonly string[]
  readonly hidden: readonly string[]
  readonly readings: readonly Shown[]
  readonly looks: readonly Look[]
  readonly states: States
  /** Holds a state's pictures, large. */
  onLarger(set: string): void
}

/** States side by side, in order, each with its numbers, each to be had large; a hidden one is hatched. */
export function StepPictures({ sets, hidden, readings, looks, states, onLarger }: PicturesProps) {
  const tellsEdge = readings.some(({ reading }) => EDGE.test(reading))
  return (
    <div className="lesson-shows">
      {looks.includes('edge') && (
        <p className="span-note">
          The ruler beside the edge has a mark each {MARK_MM} mm, counted square to the light. Its long lines lead to
          where light is full and where it is gone, its short ones to 90 and 10 % of it.
        </p>
      )}
      <ol className="lesson-pictures" style={roomOf(looks)} data-drawn={states.finished ? 'finished' : undefined}>
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
                      tellsEdge={tellsEdge}
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
                            <Value all={states.readingsOf(set)} id={reading} isHidden={isHidden} />
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

/** The width that is marked in a crop: its figure stands there once the step tells it. */
const EDGE = /^edge\..+\.nose\.full$/
/** Width over height of the middle of a crop that is shown: the style is told it. */
const CROP_SHOWN = 6 / 5

/** Crops with millimetres along their foot; across an edge the ruler lies in the picture. */
const isRuled = (look: Look): boolean => isCrop(look) && look !== 'edge'

/** Told to the style, so that all looks of a state fit one above the other: their heights over their width, and what frames add, rem. */
function roomOf(looks: readonly Look[]): CSSProperties {
  const crops = looks.filter(isCrop).length
  const heights = (looks.length - crops) * 1.5 + crops / CROP_SHOWN
  const frames = looks.length * 2.125 + looks.filter(isRuled).length * 1.0625
  return {
    ['--heights' as string]: heights,
    ['--frames' as string]: `${frames}rem`,
    ['--shown' as string]: CROP_SHOWN,
  }
}

interface OnePictureProps {
  readonly set: string
  readonly look: Look
  readonly isHidden: boolean
  readonly cell: Cell | null
  readonly tellsEdge: boolean
}

function OnePicture({ set, look, isHidden, cell, tellsEdge }: OnePictureProps) {
  const crop = isCrop(look)
  if (isHidden)
    return (
      <div
        className={`hatched ${crop ? 'crop' : ''} ${isRuled(look) ? 'ruled' : ''}`}
        role="img"
        aria-label={`picture of ${set}, ${HIDDEN}`}
      >
        {!crop && <span>after the prediction</span>}
      </div>
    )
  return (
    <div className={`lesson-print ${crop ? 'crop' : ''} ${isRuled(look) ? 'ruled' : ''}`}>
      <Print bitmap={cell?.bitmap ?? null} name={crop ? `${set}, ${LOOK_WORDS[look]}` : set}>
        {cell?.bitmap && cell.span && (
          <SpanMarks
            span={cell.span}
            aspect={cell.bitmap.width / cell.bitmap.height}
            shown={CROP_SHOWN}
            figured={tellsEdge}
          />
        )}
      </Print>
      {isRuled(look) &&
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
  if (set === of) return 'counts as 1'
  const [a, b] = [all, others].map((readings) => readings.find((reading) => reading.id === id))
  const words = a && b ? timesWords(a, b) : null
  return words === null ? 'none' : `${words} ${of}`
}

/** A reading, as shown; a ruled blank while it is hidden or not read. */
export function Value({ all, id, isHidden }: { all: readonly Reading[] | null; id: string; isHidden: boolean }) {
  if (isHidden) return <Blank why={HIDDEN} />
  if (all === null) return <Blank why={UNREAD} />
  const found = all.find((reading) => reading.id === id)
  if (found && typeof found.value === 'number') {
    // Side by side, left and right or over and under are not told apart by a bare angle.
    const [, turn] = /^source\.\w\.(azimuth|elevation)/.exec(id) ?? []
    if (turn) return turnWords(turn === 'azimuth' ? 'round' : 'up', found.value)
  }
  if (found) return withUnit(found.text, found.unit)
  return id.startsWith('edge.') ? 'no edge' : 'none'
}
