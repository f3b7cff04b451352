import { lazy, memo, Suspense, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { type Drawing, drawElevation, drawPlan, type Elevation, type Point2 } from '../../paper'
import type { Rig } from '../../rig'
import type { Sitting } from '../../sitting'
import type { Vec3 } from '../../space'
import { useDerived, useDerivedNow } from '../derived'
import { setSession, useSession, useSitting, useSittingNow } from '../store'
import { WALK_WORD } from '../walk/orbit'
import { DrawingView, type InHand } from './drawing-view'
import { type Pane, shortened } from './fit'
import type { Pair } from './placed'
import { usePlaced } from './use-placed'

/** Loaded with the first drag. */
const StandAngle = lazy(async () => ({ default: (await import('./stand-angle')).StandAngle }))
const OfNow = lazy(async () => ({ default: (await import('../takes/wipe')).OfNow }))
const Against = lazy(async () => ({ default: (await import('./stand-angle')).Against }))

/** Plan over elevation, at one scale. While something is held, the scale and the sheet stay as they were. */
export const Drawings = memo(function Drawings() {
  const sitting = useSittingNow()
  const hint = useSession((session) => !session.hintSeen)
  const walking = useSession((session) => session.walking)
  const wiping = useSession((session) => session.wipe !== null)
  const [planPane, planSize] = usePane()
  const [elevationPane, elevationSize] = usePane()
  const [held, setHeld] = useState<InHand | null>(null)
  const marks = useMarked()
  const ems = Math.min(planSize.width, elevationSize.width) / planSize.textPx
  const tightness = ems < TIGHT_EM ? 'tight' : ems < NARROW_EM ? 'narrow' : null
  const drawings = usePair(held?.plane.kind ?? null, tightness)
  const placed = usePlaced(drawings, planSize, elevationSize, held !== null)
  const first = sitting.sources[0]
  return (
    <>
      <section className="plan" ref={planPane} aria-labelledby="plan-title">
        <div className="sheet-title">
          <h2 id="plan-title">
            Plan<Suspense>{wiping && <OfNow />}</Suspense>
          </h2>
          <button
            id={WALK_WORD}
            type="button"
            className="word"
            title="the set in three dimensions"
            aria-expanded={walking}
            onClick={() => setSession({ walking: true, page: 'plan' })}
          >
            walk round
          </button>
          {!first && 'no source: add one'}
          {first && hint && (
            <>
              drag {first.letter}
              <span className="whom"> over the floor</span>
            </>
          )}
          <Suspense>{!hint && <StandAngle held={held} />}</Suspense>
        </div>
        {drawings && placed && (
          <DrawingView
            drawing={placed.plan.drawing}
            at={placed.plan.at}
            pane={planSize}
            plane={PLAN}
            rings={marks.map(({ at, ...mark }) => ({ ...mark, at: [at[0], at[2]] }))}
            onHold={setHeld}
          />
        )}
      </section>
      <section className="elevation" ref={elevationPane} aria-labelledby="elevation-title">
        <div className="sheet-title">
          <h2 id="elevation-title">Elevation</h2>
          {drawings?.elevation.caption}
          <Suspense>{held?.plane.kind === 'elevation' && <Against held={held} />}</Suspense>
        </div>
        {drawings && placed && (
          <DrawingView
            drawing={placed.elevation.drawing}
            at={placed.elevation.at}
            pane={elevationSize}
            plane={{ kind: 'elevation', along: [drawings.elevation.alongX, drawings.elevation.alongZ] }}
            rings={marks.map(({ at, ...mark }) => ({ ...mark, at: onElevation(at, drawings.elevation) }))}
            onHold={setHeld}
          />
        )}
      </section>
    </>
  )
})

const PLAN = { kind: 'plan' } as const

/**
 * Both drawings of the set. The one that is under the hand is drawn of this moment's, the other one with all that stands beside
 * them: it is painted a frame later, and the first a third sooner.
 */
function usePair(under: 'plan' | 'elevation' | null, tightness: 'tight' | 'narrow' | null): Pair | null {
  const now = useDrawn(
    useSittingNow(),
    useDerivedNow((derived) => derived.rig),
  )
  const late = useDrawn(
    useSitting(),
    useDerived((derived) => derived.rig),
  )
  const [ofPlan, ofElevation] = [under === 'elevation' ? late : now, under === 'plan' ? late : now]
  const plan = useMemo(() => ofPlan && fitting(drawPlan(ofPlan), tightness), [ofPlan, tightness])
  const elevation = useMemo(
    () => ofElevation && fitting(drawElevation(ofElevation), tightness),
    [ofElevation, tightness],
  )
  return useMemo(() => plan && elevation && { plan, elevation }, [plan, elevation])
}

const fitting = <T extends Drawing>(drawing: T, tightness: 'tight' | 'narrow' | null): T =>
  tightness ? shortened(drawing, tightness) : drawing

/** What the drawings are made of; null: the set is not put together yet. */
function useDrawn(sitting: Sitting, rig: Rig | null) {
  const selected = useSession((session) => session.selected)
  const units = useSession((session) => session.units)
  const fNumber = useYieldedFNumber(sitting, selected)
  return useMemo(() => rig && { sitting, rig, selected, units, fNumber }, [sitting, rig, selected, units, fNumber])
}

/** The f-number as last read where it gives way; undefined where it is the document's, and where no drawing shows it. */
const useYieldedFNumber = ({ reExpose }: Sitting, selected: string | null): number | undefined =>
  useDerived((derived) =>
    reExpose === 'f-number' && selected === 'camera' ? derived.read?.exposure.fNumber : undefined,
  )

/** Panes narrower than this many of their letters take the short form of the words, much narrower ones the least. */
const NARROW_EM = 28
const TIGHT_EM = 16

const onElevation = (at: Vec3, { alongX, alongZ }: Elevation): Point2 => [at[0] * alongX + at[2] * alongZ, -at[1]]

/** What is ringed on the drawings: the spots of cautions, and the place of the reading that is pointed at. */
function useMarked(): readonly {
  readonly id: string
  readonly at: Vec3
  readonly kind: 'caution' | 'place'
  readonly name?: string
}[] {
  const cautions = useDerived((derived) => derived.read?.cautions)
  const pointedAt = useSession((session) => session.pointedAt)
  return useMemo(
    () => [
      ...(cautions ?? []).flatMap(({ id, at }) => (at ? [{ id, at, kind: 'caution' as const }] : [])),
      ...(pointedAt ? [{ ...pointedAt, id: 'place', kind: 'place' as const }] : []),
    ],
    [cautions, pointedAt],
  )
}

/** Labels of the drawings, as a share of the page's text. */
const LABEL_EM = 0.9375
/** Doubled text may grow to this share of a pane's width, or the words would leave no room for what they name. */
const WIDEST_SHARE = 0.05
const LEAST_PX = 15

/** A pane, its size, the size of its labels and the height of its title, CSS pixels. */
function usePane() {
  const pane = useRef<HTMLElement>(null)
  const [size, setSize] = useState<Pane>({ width: 480, height: 400, textPx: 15, titlePx: 40 })
  useLayoutEffect(() => {
    const element = pane.current
    if (!element) return
    const title = element.querySelector('.sheet-title')
    const observer = new ResizeObserver(() => {
      const { clientWidth: width, clientHeight: height } = element
      const wanted = LABEL_EM * Number.parseFloat(getComputedStyle(element).fontSize)
      const textPx = Math.min(wanted, Math.max(LEAST_PX, WIDEST_SHARE * width))
      setSize({ width, height, textPx, titlePx: title?.clientHeight ?? 0 })
    })
    observer.observe(element)
    if (title) observer.observe(title)
    return () => observer.disconnect()
  }, [])
  return [pane, size] as const
}
