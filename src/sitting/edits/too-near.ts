import { buildModifier, type Modifier } from '../../gear'

/** Nearer than that no source stands, however small it is, and no part of one comes to the face, metres: common practice, no source. */
export const NEAREST_M = { face: 0.5, gear: 0.25 }

/** How far what carries the source stands out before its lit face, metres: the lamp of an umbrella. */
export function reachM(modifier: Modifier): number {
  const ends = buildModifier(modifier).solids.flatMap((solid) =>
    solid.kind === 'cylinder' ? [solid.from[2], solid.to[2]] : [],
  )
  return Math.max(0, ...ends)
}

/** Whether at so much tape, metres, a source's own lamp or shaft would stand nearer to the sitter's face than anybody puts it. */
export const isTooNear = (modifier: Modifier, tapeM: number): boolean => tapeM < reachM(modifier) + NEAREST_M.gear

/** A head is this deep from the eyes that the tape goes to, metres, to the tip of the nose and a little air. */
const NOSE_M = 0.1

/** Nearer it would stand in the very face, metres of tape. */
export const nearestTapeM = (modifier: Modifier): number => reachM(modifier) + NOSE_M

/** Whether it would stand in the very face. */
export const isInFace = (modifier: Modifier, tapeM: number): boolean => tapeM < nearestTapeM(modifier)
