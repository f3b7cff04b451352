import { useId, useMemo, useRef } from 'react'
import { type Area, areaOver, CLIPS_FROM, type Plate, stopsMap } from '../../camera'
import { rigSeen } from '../../rig'
import { useDerived } from '../derived'
import type { ShownPlate } from '../picture/protocol'
import { type Sized, useSize } from '../picture/use-size'
import { useSession } from '../store'
import { useDifference } from '../takes/plates'
import { fixed } from '../values/format'
import { Crosshair } from './crosshair'
import { type Zero, zeroOf } from './zero'

/** Over the picture while its exposure is judged: hatches, figures and marks, black on print white, and the crosshair. */
export function JudgingMarks() {
  const judging = useSession((session) => session.judging)
  const compared = useSession((session) => session.wipe !== null)
  const difference = useDifference()
  const plate = useDerived((derived) => derived.plate)
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, judging !== null)
  if (!judging) return null
  if (compared)
    return (
      <div className="judging" ref={box}>
        {difference && size && judging.map && (
          <svg className="marks" viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
            <MapMarks plate={difference} from={SAME} {...size} />
          </svg>
        )}
      </div>
    )
  return (
    <div className="judging" ref={box}>
      {plate && size && (
        <svg className="marks" viewBox={`0 0 ${size.width} ${size.height}`} aria-hidden="true">
          {judging.map && <MapMarks plate={plate} {...size} />}
          {judging.clips && <ClipMarks plate={plate} {...size} />}
        </svg>
      )}
      {plate && <Crosshair plate={plate} />}
    </div>
  )
}

/** Room of '−2.5', in its own size. */
const FIGURE_ROOM = { width: 2, height: 1 }

/** Where neither of two pictures is brighter. */
const SAME: Zero = { luminance: 1, at: null }

interface MarksProps extends Sized {
  readonly plate: ShownPlate
}

interface MapProps extends Sized {
  readonly plate: Plate
  /** What counts as 0; left out: what is metered. */
  readonly from?: Zero
}

function MapMarks({ plate, from, width, height, textPx }: MapProps) {
  const id = useId()
  const rig = useDerived((derived) => derived.rig)
  const look = useSession((session) => session.look)
  const [kx, ky] = [width / plate.columns, height / plate.rows]
  const zero = useMemo(() => from ?? (rig && zeroOf(rigSeen(rig, look), plate)), [from, rig, look, plate])
  const map = useMemo(
    () =>
      zero &&
      stopsMap(plate, zero.luminance, {
        width: (FIGURE_ROOM.width * textPx) / kx,
        height: (FIGURE_ROOM.height * textPx) / ky,
      }),
    [zero, plate, textPx, kx, ky],
  )
  if (!map || !zero) return null
  const layers = [...map.darker.map((area, i) => ({ area, hatch: HATCHES[i] })), { area: map.lighter, hatch: DOTS }]
  const cross = zero.at && { x: zero.at.x * width, y: zero.at.y * height }
  return (
    <>
      <defs>
        {[...HATCHES, DOTS].map((hatch) => (
          <pattern
            key={hatch.name}
            id={`${id}${hatch.name}`}
            width={hatch.apart}
            height={hatch.apart}
            patternUnits="userSpaceOnUse"
            patternTransform={`rotate(${hatch.turn})`}
          >
            {hatch === DOTS ? (
              <circle cx={hatch.apart / 2} cy={hatch.apart / 2} r="1.1" />
            ) : (
              <path d={`M0 ${hatch.apart / 2}h${hatch.apart}`} />
            )}
          </pattern>
        ))}
      </defs>
      <rect className="veil" width={width} height={height} />
      {layers.map(({ area, hatch }) => (
        <g key={hatch.name} className={`hatch ${hatch.name}`}>
          <path d={piecesPath(area, kx, ky)} fill={`url(#${id}${hatch.name})`} />
          <path className="border" d={strokesPath(area, kx, ky)} />
        </g>
      ))}
      <g className="figures" style={{ fontSize: textPx }}>
        {map.figures
          .filter(({ x, y }) => !cross || Math.hypot(x * kx - cross.x, y * ky - cross.y) > 2 * textPx)
          .map(({ x, y, stops }) => (
            <text key={`${x} ${y}`} x={x * kx} y={y * ky} dy="0.34em">
              {signedTenth(stops)}
            </text>
          ))}
        {cross && (
          <>
            <path className="cross" d={`M${cross.x - 7} ${cross.y}h14M${cross.x} ${cross.y - 7}v14`} />
            <text x={cross.x + 12} y={cross.y} dy="0.34em">
              0
            </text>
          </>
        )}
      </g>
    </>
  )
}

/** One layer more for each stop darker; lines of a light pencil, so that the figures stand out. */
const HATCHES = [
  { name: 'lines', turn: -35, apart: 6 },
  { name: 'crosses', turn: 35, apart: 6 },
  { name: 'uprights', turn: 90, apart: 3 },
] as const
const DOTS = { name: 'dots', turn: 0, apart: 6 } as const

const signedTenth = (stops: number): string =>
  stops <= -9.95 ? 'black' : `${stops > 0.049 ? '+' : ''}${fixed(stops, 1)}`

/** Where a channel is above the display's white, lines; above what fills the sensor, chequers. */
function ClipMarks({ plate, width, height }: MarksProps) {
  const id = useId()
  const [kx, ky] = [width / plate.columns, height / plate.rows]
  const areas = useMemo(() => {
    const { columns, rows, peak: values } = plate
    return {
      display: areaOver({ columns, rows, values }, CLIPS_FROM.display),
      sensor: areaOver({ columns, rows, values }, CLIPS_FROM.sensor),
    }
  }, [plate])
  return (
    <g className="clips">
      <defs>
        <pattern id={`${id}display`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path className="light" d="M0 1.5h6" />
          <path className="dark" d="M0 4.5h6" />
        </pattern>
        <pattern id={`${id}sensor`} width="8" height="8" patternUnits="userSpaceOnUse">
          <rect className="light" width="8" height="8" />
          <path className="chequer" d="M0 0h4v4h-4zM4 4h4v4h-4z" />
        </pattern>
      </defs>
      {(['display', 'sensor'] as const).map((what) => (
        <g key={what} className={what}>
          <path d={piecesPath(areas[what], kx, ky)} fill={`url(#${id}${what})`} />
          <path className="border under" d={strokesPath(areas[what], kx, ky)} />
          <path className="border" d={strokesPath(areas[what], kx, ky)} />
        </g>
      ))}
    </g>
  )
}

const tenth = (value: number): number => Math.round(10 * value) / 10

const pathOf = (points: readonly number[], kx: number, ky: number): string => {
  let words = ''
  for (let i = 0; i < points.length; i += 2)
    words += `${i === 0 ? 'M' : 'L'}${tenth(points[i] * kx)} ${tenth(points[i + 1] * ky)}`
  return words
}
const piecesPath = ({ pieces }: Area, kx: number, ky: number): string =>
  pieces.map((piece) => `${pathOf(piece, kx, ky)}z`).join('')
const strokesPath = ({ strokes }: Area, kx: number, ky: number): string =>
  strokes.map((stroke) => pathOf(stroke, kx, ky)).join('')
