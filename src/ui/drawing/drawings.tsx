import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import { type Bounds, type Drawing, drawElevation, drawPlan, type Elevation, type Point2 } from '../../paper'
import type { Vec3 } from '../../space'
import { useDerived } from '../derived'
import { useSession, useSitting } from '../store'
import { DrawingView } from './drawing-view'
import { largestScale, place, type Size, withWordsInSight } from './fit'

/** Plan over elevation, at one scale. While something is held, the scale and the sheet stay as they were. */
export function Drawings() {
  const sitting = useSitting()
  const selected = useSession((session) => session.selected)
  const units = useSession((session) => session.units)
  const hint = useSession((session) => !session.hintSeen)
  const rig = useDerived((derived) => derived.rig)
  const [planPane, planSize] = usePane()
  const [elevationPane, elevationSize] = usePane()
  const [held, setHeld] = useState(false)
  const marks = useMarked()
  const drawings = useMemo(() => {
    if (rig === null) return null
    const input = { sitting, rig, selected, units }
    return { plan: drawPlan(input), elevation: drawElevation(input) }
  }, [sitting, rig, selected, units])
  const frame = useRef<{ plan: Bounds; elevation: Bounds } | null>(null)
  if (drawings && !(held && frame.current))
    frame.current = { plan: drawings.plan.bounds, elevation: drawings.elevation.bounds }
  const bounds = frame.current
  const scale = bounds
    ? Math.min(largestScale(bounds.plan, planSize), largestScale(bounds.elevation, elevationSize))
    : 1
  const placed = ({ shapes }: Drawing, box: Bounds, pane: Size, onFloor: boolean) =>
    withWordsInSight(place(box, pane, scale, onFloor), shapes, box, pane)
  const first = sitting.sources[0]
  return (
    <>
      <section className="plan" ref={planPane} aria-labelledby="plan-title">
        <div className="sheet-title">
          <h2 id="plan-title">Plan</h2>
          {!first ? 'no source: add one' : hint ? `drag ${first.letter} round the sitter` : drawings?.plan.caption}
        </div>
        {drawings && bounds && (
          <DrawingView
            drawing={drawings.plan}
            at={placed(drawings.plan, bounds.plan, planSize, false)}
            plane={{ kind: 'plan' }}
            rings={marks.map(({ at, ...mark }) => ({ ...mark, at: [at[0], at[2]] }))}
            onHold={setHeld}
          />
        )}
      </section>
      <section className="elevation" ref={elevationPane} aria-labelledby="elevation-title">
        <div className="sheet-title">
          <h2 id="elevation-title">Elevation</h2>
          {drawings?.elevation.caption}
        </div>
        {drawings && bounds && (
          <DrawingView
            drawing={drawings.elevation}
            at={placed(drawings.elevation, bounds.elevation, elevationSize, true)}
            plane={{ kind: 'elevation', along: [drawings.elevation.alongX, drawings.elevation.alongZ] }}
            rings={marks.map(({ at, ...mark }) => ({ ...mark, at: onElevation(at, drawings.elevation) }))}
            onHold={setHeld}
          />
        )}
      </section>
    </>
  )
}

const onElevation = (at: Vec3, { alongX, alongZ }: Elevation): Point2 => [at[0] * alongX + at[2] * alongZ, -at[1]]

/** What is ringed on the drawings: the spots of cautions, and the place of the reading that is pointed at. */
function useMarked(): readonly { readonly id: string; readonly at: Vec3; readonly kind: 'caution' | 'place' }[] {
  const cautions = useDerived((derived) => derived.read?.cautions)
  const pointedAt = useSession((session) => session.pointedAt)
  return useMemo(
    () => [
      ...(cautions ?? []).flatMap(({ id, at }) => (at ? [{ id, at, kind: 'caution' as const }] : [])),
      ...(pointedAt ? [{ id: 'place', at: pointedAt, kind: 'place' as const }] : []),
    ],
    [cautions, pointedAt],
  )
}

/** A pane and its size in CSS pixels. */
function usePane() {
  const pane = useRef<HTMLElement>(null)
  const [size, setSize] = useState<Size>({ width: 480, height: 400 })
  useLayoutEffect(() => {
    const element = pane.current
    if (!element) return
    const observer = new ResizeObserver(() => setSize({ width: element.clientWidth, height: element.clientHeight }))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [pane, size] as const
}
