/**
 * paper: plan, elevation and later the set-up sheet as plain drawing shapes in metres, then SVG. In: a sitting and its
 * rig; out: Drawing. drawPlan(input), drawElevation(input), toSvg(drawing).
 */

export { clearLetters } from './clear-letters'
export type { Box } from './covered'
export { type CauseDrawing, type CauseSeen, drawEdgeCause } from './edge-cause'
export { drawElevation } from './elevation'
export { type FixedPoints, fixedPointsOf, lineOf, type Tapes, tapesTo } from './fixed-points'
export { drawHalfRoom, type HalfRoomDrawing, type ShareWords } from './half-room'
export { legible, spread } from './legible'
export { convexHull, planProjection } from './outline'
export * from './placement'
export { drawPlan } from './plan'
export { platesOf } from './plates'
export { slideClear } from './slide'
export { solidPoints } from './solids'
export { PAPER_DASH_MM, PAPER_WEIGHT_MM, toSvg } from './svg'
export * from './types'
export { lengthLabel, namesOf, OBJECT_WORDS } from './words'
