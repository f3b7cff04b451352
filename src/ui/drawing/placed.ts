import { type Drawing, type Elevation, type Point2, slideClear } from '../../paper'
import { largestScale, type Pane, type Placement, place, roomOn, scaleStays, stillFits } from './fit'
import { freeSpot, type Spot, windowOf, withWindow } from './window'

export interface Pair {
  readonly plan: Drawing
  readonly elevation: Elevation
}

/** Where both drawings lie on their panes, and where the enlarged edge stands; null: not on that one. */
export interface Frame {
  readonly plan: Placement
  readonly elevation: Placement
  readonly spots: { readonly plan: Spot | null; readonly elevation: Spot | null }
  /** The panes that it was made for. */
  readonly panes: readonly [Pane, Pane]
}

/** A narrow elevation may be this much smaller than the plan could be; beyond, each has a scale of its own. */
const LEAST_SHARE = 0.75
/** The enlarged edge leaves the plan for the elevation only for a window larger by this. */
const WORTH_MOVING = 1.25

/** The plan in a frame, the enlarged edge at its spot. */
export const onItsPlan = (drawing: Drawing, window: ReturnType<typeof windowOf>, { plan: at, spots }: Frame) => ({
  drawing: { ...drawing, shapes: withWindow(drawing.shapes, window, spots.plan, window?.from ?? null, at) },
  at,
})

/** The same of the elevation. */
export const onItsElevation = (
  drawing: Elevation,
  window: ReturnType<typeof windowOf>,
  { elevation: at, spots }: Frame,
) => ({
  drawing: { ...drawing, shapes: withWindow(drawing.shapes, window, spots.elevation, drawing.edgeAt, at) },
  at,
})

/**
 * The frame of a pair on its panes; before: the last one. Its scale stays while both drawings have room at it, and its places and spots
 * while they are free, so that a thing lies where it was let go.
 */
export function framed(pair: Pair, planPane: Pane, elevationPane: Pane, before: Frame | null): Frame {
  const own = { plan: largestScale(pair.plan, planPane), elevation: largestScale(pair.elevation, elevationPane) }
  const scales = together(own)
  const last =
    before?.panes[0] === planPane &&
    before.panes[1] === elevationPane &&
    scaleStays(before.plan.scale, own.plan, scales.plan) &&
    scaleStays(before.elevation.scale, own.elevation, scales.elevation)
      ? before
      : null
  const putOn = (drawing: Drawing, pane: Pane, at: Placement | undefined, scale: number, onFloor: boolean) =>
    at && stillFits(drawing, pane, at) ? at : place(drawing, pane, at?.scale ?? scale, onFloor)
  const plan = putOn(pair.plan, planPane, last?.plan, scales.plan, false)
  const elevation = putOn(pair.elevation, elevationPane, last?.elevation, scales.elevation, true)
  const spots = spotsOf(pair, { plan, elevation }, planPane, elevationPane, before)
  return { plan, elevation, spots, panes: [planPane, elevationPane] }
}

function spotsOf(
  pair: Pair,
  { plan, elevation }: Pick<Frame, 'plan' | 'elevation'>,
  planPane: Pane,
  elevationPane: Pane,
  before: Frame | null,
): Frame['spots'] {
  const window = windowOf(pair.plan)
  const { edgeAt } = pair.elevation
  if (!window || !edgeAt) return { plan: null, elevation: null }
  const spotOn = (drawing: Drawing, at: Placement, pane: Pane, near: Point2, last: Spot | null) => {
    const bare = withWindow(drawing.shapes, null, null, null, at)
    // Figures go to their clear places first, and the window leaves them those; where it cannot, they make way.
    const slid = slideClear(bare, at, pane.textPx, roomOn(pane))
    return freeSpot({ shapes: slid, at, pane }, near, last) ?? freeSpot({ shapes: bare, at, pane }, near, last)
  }
  const onPlan = spotOn(pair.plan, plan, planPane, window.from, before?.spots.plan ?? null)
  const full = onPlan && before?.spots.elevation === null
  const beside = full ? null : spotOn(pair.elevation, elevation, elevationPane, edgeAt, before?.spots.elevation ?? null)
  return beside && beside.radius > WORTH_MOVING * (onPlan?.radius ?? 0)
    ? { plan: null, elevation: beside }
    : { plan: onPlan, elevation: null }
}

/** One scale for both, unless the plan would lose much by it. */
function together(own: { readonly plan: number; readonly elevation: number }) {
  const common = Math.min(own.plan, own.elevation)
  return common < LEAST_SHARE * own.plan ? own : { plan: common, elevation: common }
}
