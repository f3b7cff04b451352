import { useRef } from 'react'
import { projectToFrame } from '../../camera'
import { type Look, rigSeen } from '../../rig'
import { useDerived } from '../derived'
import { useSession } from '../store'
import { useSize } from './use-size'

/** Over the picture, on demand: what each of the nine places of the backdrop has under the face, and the code that it gets. */
export function BackdropMarks({ look }: { look: Look }) {
  const shown = useSession((session) => session.backdropShown && session.wipe === null)
  const rig = useDerived((derived) => derived.rig)
  const readings = useDerived((derived) => derived.read?.readings)
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, shown)
  if (!shown) return null
  const { view } = rig ? rigSeen(rig, look) : { view: null }
  const places = (readings ?? []).flatMap(({ id, text, code, place }) => {
    const at = view && place.at && code !== undefined ? projectToFrame(place.at, view.frame, view) : null
    if (!at || Math.max(Math.abs(at.x), Math.abs(at.y)) > 1) return []
    return [{ id, name: place.name, x: (1 + at.x) / 2, y: (1 - at.y) / 2, stops: text, code: Math.round(code!) }]
  })
  const told = places.map(({ name, stops, code }) => `${name} ${stops} stops, code ${code}`).join('; ')
  return (
    <div className="meter-marks" ref={box}>
      {size && places.length > 0 && (
        <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-label={`Tones of the backdrop: ${told}`}>
          <g className="tones" style={{ fontSize: size.textPx }}>
            {places.map(({ id, x, y, stops, code }) => (
              <text key={id} y={y * size.height}>
                <tspan x={x * size.width} dy="-0.2em">
                  {stops}
                </tspan>
                <tspan x={x * size.width} dy="1.1em">
                  {code}
                </tspan>
              </text>
            ))}
          </g>
        </svg>
      )}
    </div>
  )
}
