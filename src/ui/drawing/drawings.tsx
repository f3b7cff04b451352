import { useLayoutEffect, useMemo, useRef, useState } from 'react'
import { type Drawing, drawElevation, drawPlan, type Elevation, type Point2 } from '../../paper'
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
  const frame = useRef<typeof drawings>(null)
  if (!(held && frame.current)) frame.current = drawings
  const fitted = frame.current
  const { textPx } = planSize
  const scales = fitted ? scalesOf(fitted.plan, planSize, fitted.elevation, elevationSize, textPx) : null
  const placed = (drawing: Drawing, scale: number, pane: Size, onFloor: boolean) =>
    withWordsInSight(place(drawing.bounds, pane, scale, onFloor), drawing, pane, textPx)
  const first = sitting.sources[0]
  return (
    <>
      <section className="plan" ref={planPane} aria-labelledby="plan-title">
        <div className="sheet-title">
          <h2 id="plan-title">Plan</h2>
          {!first ? 'no source: add one' : hint ? `drag ${first.letter} round the sitter` : ''}
        </div>
        {drawings && fitted && scales && (
          <DrawingView
            drawing={drawings.plan}
            at={placed(fitted.plan, scales.plan, planSize, false)}
            textPx={textPx}
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
        {drawings && fitted && scales && (
          <DrawingView
            drawing={drawings.elevation}
            at={placed(fitted.elevation, scales.elevation, elevationSize, true)}
            textPx={textPx}
            plane={{ kind: 'elevation', along: [drawings.elevation.alongX, drawings.elevation.alongZ] }}
            rings={marks.map(({ at, ...mark }) => ({ ...mark, at: onElevation(at, drawings.elevation) }))}
            onHold={setHeld}
          />
        )}
      </section>
    </>
  )
}

/** A narrow elevation may be this much smaller than the plan could be; beyond, each has a scale of its own. */
const LEAST_SHARE = 0.75

function scalesOf(plan: Drawing, planPane: Size, elevation: Drawing, elevationPane: Size, textPx: number) {
  const own = {
    plan: largestScale(plan, planPane, textPx),
    elevation: largestScale(elevation, elevationPane, textPx),
  }
  const common = Math.min(own.plan, own.elevation)
  return common < LEAST_SHARE * own.plan ? own : { plan: common, elevation: common }
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

/** Labels of the drawings, as a share of the page's text: as in drawing.css. */
const LABEL_EM = 0.9375

/** A pane, its size and the size of its labels in CSS pixels. */
function usePane() {
  const pane = useRef<HTMLElement>(null)
  const [size, setSize] = useState<Size & { textPx: number }>({ width: 480, height: 400, textPx: 15 })
  useLayoutEffect(() => {
    const element = pane.current
    if (!element) return
    const observer = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = element
      setSize({ width, height, textPx: LABEL_EM * Number.parseFloat(getComputedStyle(element).fontSize) })
    })
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [pane, size] as const
}
