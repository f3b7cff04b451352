import { useMemo, useRef } from 'react'
import { projectToFrame } from '../../camera'
import { type Look, meterDirection, meterPoint, type Rig, rigSeen } from '../../rig'
import type { MeterPlace } from '../../sitting'
import { addScaled } from '../../space'
import { type Read, useDerived } from '../derived'
import { useSession, useSittingPart } from '../store'
import { placeWords } from './meter-labels'
import { type Sized, useSize } from './use-size'

/**
 * Over the picture: the meter that is selected where it is held, on demand all of them, with what they read; dashed where
 * something stands before one.
 */
export function MeterMarks({ look }: { look: Look }) {
  const all = useSittingPart((sitting) => sitting.meterPlaces)
  const selected = useSession((session) => session.selected)
  const allShown = useSession((session) => session.metersShown)
  const compared = useSession((session) => session.wipe !== null)
  const places = useMemo(() => (allShown ? all : all.filter(({ id }) => id === selected)), [all, allShown, selected])
  const shown = places.length > 0 && !compared
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, shown)
  if (!shown) return null
  return (
    <div className="meter-marks" ref={box}>
      {size && <Marks places={places} look={look} size={size} selected={selected} />}
    </div>
  )
}

interface MarksProps {
  readonly places: readonly MeterPlace[]
  readonly look: Look
  readonly size: Sized
  readonly selected: string | null
}

function Marks({ places, look, size, selected }: MarksProps) {
  const rig = useDerived((derived) => derived.rig)
  const read = useDerived((derived) => derived.read)
  const marks = useMemo(
    () => (rig ? marksOf(places, rigSeen(rig, look), read, look, size) : []),
    [places, rig, read, look, size],
  )
  const words = placeWords(marks, size, size.textPx)
  if (marks.length === 0) return null
  return (
    <svg
      viewBox={`0 0 ${size.width} ${size.height}`}
      role="img"
      aria-label={`Meters in the picture: ${marks.map(({ told }) => told).join('; ')}`}
    >
      {marks.map((mark) => (
        <g key={mark.id} className={`${mark.hidden ? 'hidden' : ''} ${mark.id === selected ? 'selected' : ''}`.trim()}>
          {(['under', 'over'] as const).map((layer) => (
            <path key={layer} className={layer} d={markPath(mark)} />
          ))}
        </g>
      ))}
      {words.map(({ id, text, textX, textY }) => (
        <text key={id} x={textX} y={textY} style={{ fontSize: size.textPx }}>
          {text}
        </text>
      ))}
    </svg>
  )
}

interface Mark {
  readonly id: string
  readonly x: number
  readonly y: number
  /** Where its stem ends: towards what it is aimed at, as long as on the plan; null: a spot has none. */
  readonly stem: { readonly x: number; readonly y: number } | null
  readonly hidden: boolean
  readonly text: string
  readonly told: string
}

const RADIUS_PX = 5
/** As long as on the plan, m. */
const STEM_M = 0.1

/** A circle with a stem, which begins at its rim; a spot is a circle with a dot. */
function markPath({ x, y, stem }: Mark): string {
  const ring = circlePath(x, y, RADIUS_PX)
  if (!stem) return `${ring}${circlePath(x, y, 0.75)}`
  const long = Math.hypot(stem.x - x, stem.y - y)
  if (long <= RADIUS_PX) return ring
  const k = RADIUS_PX / long
  return `${ring}M${x + k * (stem.x - x)} ${y + k * (stem.y - y)}L${stem.x} ${stem.y}`
}

const circlePath = (x: number, y: number, r: number): string =>
  `M${x + r} ${y}a${r} ${r} 0 1 0 ${-2 * r} 0a${r} ${r} 0 1 0 ${2 * r} 0`

function marksOf(
  places: readonly MeterPlace[],
  rig: Rig,
  read: Read | null,
  look: Look,
  { width, height }: Sized,
): readonly Mark[] {
  const { view } = rig
  const hiddenIds = read?.hidden[look === 'profile' ? 'profile' : 'lens'] ?? []
  const inPicture = (point: readonly [number, number, number]) => {
    const at = projectToFrame(point, view.frame, view)
    return at && { x: ((1 + at.x) / 2) * width, y: ((1 - at.y) / 2) * height }
  }
  return places.flatMap((place) => {
    const { point } = meterPoint(place, rig)
    const at = inPicture(point)
    if (!at || at.x < 0 || at.y < 0 || at.x > width || at.y > height) return []
    const value = read?.readings.find(({ id }) => id === `place.${place.id}`)?.text ?? ''
    const hidden = hiddenIds.includes(place.id)
    const stem = place.receptor === 'spot' ? null : inPicture(addScaled(point, meterDirection(place, rig), STEM_M))
    return [
      {
        id: place.id,
        ...at,
        stem,
        hidden,
        // Of a grid the places tell themselves.
        text: place.grid ? value : `${place.name} ${value}`.trim(),
        told: `${place.name} ${value}${hidden ? ', hidden' : ''}`,
      },
    ]
  })
}
