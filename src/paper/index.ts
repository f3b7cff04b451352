/**
 * paper: plan, elevation and later the set-up sheet as plain drawing shapes in metres, then SVG. In: a sitting and its
 * rig; out: Drawing. drawPlan(input), drawElevation(input), toSvg(drawing).
 */

export { drawElevation } from './elevation'
export { drawHalfRoom, type HalfRoomDrawing, type ShareWords } from './half-room'
export { drawPlan } from './plan'
export { toSvg } from './svg'
export * from './types'
export { namesOf, OBJECT_WORDS } from './words'
