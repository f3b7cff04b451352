import { useMemo, useRef } from 'react'
import type { ExplainStep } from '../../lesson'
import { drawEdgeCause } from '../../paper'
import { ShapeView } from '../drawing/shape'
import { useSize } from '../picture/use-size'
import type { States } from './use-states'

const EDGE = /^edge\.\w\.nose\.full$/

/** Whether a step explains the width of an edge, so that a drawing of its rays belongs beside it. */
export const explainsEdge = ({ readings = [] }: ExplainStep): boolean =>
  readings.some(({ reading }) => EDGE.test(reading))

/** The cause of an edge, drawn from the states that a step shows, by their numbers. */
export function Cause({ sets, states }: { sets: readonly string[]; states: States }) {
  const box = useRef<HTMLDivElement>(null)
  const size = useSize(box, true)
  const found = sets.flatMap((set, i) => {
    const rays = states.raysOf(set)
    return rays ? [{ name: `${i + 1}`, rays }] : []
  })
  const key = JSON.stringify(found)
  const widthEm = size ? Math.round(size.width / size.textPx) : 0
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says all of what is found
  const drawing = useMemo(
    () => (found.length > 0 && widthEm > 0 ? drawEdgeCause(found, widthEm) : null),
    [key, widthEm],
  )
  return (
    <figure className="cause">
      <div ref={box}>
        {drawing && size && (
          <svg
            className="drawing"
            role="img"
            aria-label={drawing.description}
            style={{ height: drawing.heightEm * size.textPx, fontSize: size.textPx }}
          >
            {drawing.shapes.map((shape, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: shapes have no identity; each drawing is a new list
              <ShapeView key={i} shape={shape} at={{ scale: size.textPx, x: 0, y: 0 }} />
            ))}
          </svg>
        )}
      </div>
      {drawing && (
        <figcaption>
          {`Rays from both rims of the source past the nose: the angle before the nose is the angle behind it. What is behind it is drawn ${drawing.larger} times as large.`}
        </figcaption>
      )}
    </figure>
  )
}
