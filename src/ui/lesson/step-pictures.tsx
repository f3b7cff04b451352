import { type Shown, withUnit } from '../../lesson'
import type { Reading } from '../../readings'
import { isCrop, type Look } from '../../rig'
import type { Cell } from '../contact/contact-desk'
import { Print } from '../contact/print'
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
}

/** States side by side, in order, each with its numbers; a hidden one is hatched. */
export function StepPictures({ sets, hidden, readings, looks, states }: PicturesProps) {
  const tellsEdge = readings.some(({ reading }) => EDGE.test(reading))
  const isMarked = tellsEdge && sets.some((set) => looks.some((look) => states.cellOf(set, look)?.span))
  return (
    <div>
      <ol className="lesson-pictures" data-looks={looks.length}>
        {sets.map((set, i) => {
          const isHidden = hidden.includes(set)
          return (
            <li key={set}>
              <p className="name">
                <b>{i + 1}</b> {set}
              </p>
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
              {readings.length > 0 && (
                <dl>
                  {readings.map(({ says, reading }) => (
                    <div key={reading}>
                      <dt>{says}</dt>
                      <dd>
                        <Value all={states.readingsOf(set)} id={reading} isHidden={isHidden} />
                      </dd>
                    </div>
                  ))}
                </dl>
              )}
            </li>
          )
        })}
      </ol>
      {isMarked && <p className="span-note">Marks run along the skin; their millimetres are square to the light.</p>}
    </div>
  )
}

/** The width that is marked in a crop: its figure stands there once the step tells it. */
const EDGE = /^edge\..+\.nose\.full$/
/** Width over height of the middle of a crop that is shown: the style is told it. */
const CROP_SHOWN = 6 / 5

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
      <div className={crop ? 'hatched crop' : 'hatched'} role="img" aria-label={`picture of ${set}, ${HIDDEN}`}>
        {!crop && <span>after the prediction</span>}
      </div>
    )
  return (
    <div className={crop ? 'lesson-print crop' : 'lesson-print'} style={{ ['--shown' as string]: CROP_SHOWN }}>
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
      {crop &&
        (cell?.widthMm != null ? (
          <Millimetres look={look} widthMm={cell.widthMm} />
        ) : (
          // Its room, so that nothing moves when it comes.
          <span className="ruler-edge" />
        ))}
    </div>
  )
}

/** A reading, as shown; a ruled blank while it is hidden or not read. */
export function Value({ all, id, isHidden }: { all: readonly Reading[] | null; id: string; isHidden: boolean }) {
  if (isHidden) return <Blank why={HIDDEN} />
  if (all === null) return <Blank why={UNREAD} />
  const found = all.find((reading) => reading.id === id)
  if (found) return withUnit(found.text, found.unit)
  return id.startsWith('edge.') ? 'too soft to tell' : 'none'
}
