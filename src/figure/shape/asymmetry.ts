/**
 * The recipe's face is its own mirror image, as no one's is. This displacement of space gives the first sitter what a face has of
 * its own, and every shape goes on from there: healthy faces differ between the sides by some millimetres (Farkas and Cheung 1981,
 * Facial asymmetry in healthy North American Caucasians, Angle Orthodontist 51; from memory). Drawn by hand, well below that.
 * Eyes and lid margins stay, as balls have to fit them. Millimetres.
 */
import type { FigureAsset, Landmark, LandmarkName } from '../types'
import { Mover, type Moves } from './shapeFigure'
import { push, type Stroke } from './strokes'

/** Each on its own side alone: x > 0 is the sitter's left. */
const OWN: readonly Stroke[] = [
  // One brow higher, the other lower.
  { at: [29, 23, 18], size: [17, 6.5, 20], move: [0, 0.9, 0] },
  { at: [-24, 21, 20], size: [14, 6, 18], move: [0.3, -0.5, 0] },
  // The ridge of the nose bends one way, its tip the other; one wing is wider.
  { at: [0, -14, 27], size: [13, 11, 16], move: [-0.5, 0, 0] },
  { at: [0, -37, 34], size: [15, 10, 18], move: [0.7, 0, 0] },
  { at: [15, -42, 22], size: [8, 7, 12], move: [0.4, 0.4, 0] },
  // One corner of the mouth higher, and the lips' middle off to it.
  { at: [25, -67, 15], size: [13, 8, 18], move: [0.5, 0.8, 0] },
  { at: [-25, -67, 15], size: [12, 8, 18], move: [0, -0.3, 0] },
  { at: [0, -68, 26], size: [12, 10, 16], move: [0.4, 0, 0] },
  // Chin, cheekbone and angle of the jaw.
  { at: [0, -101, 16], size: [20, 13, 20], move: [-0.8, 0, 0] },
  { at: [-44, -30, 8], size: [15, 16, 20], move: [-0.5, 0, 0.5] },
  { at: [50, -74, -36], size: [14, 17, 22], move: [0.9, -0.5, 0] },
]
/** No stroke goes farther back. */
const BACK = -85

const moves: Moves = {
  move(x, y, z, out, at = 0) {
    let [px, py, pz] = [x, y, z]
    if (z > BACK)
      for (const {
        at: [cx, cy, cz],
        size: [sx, sy, sz],
        move,
      } of OWN) {
        const share = push(((x - cx) / sx) ** 2 + ((y - cy) / sy) ** 2 + ((z - cz) / sz) ** 2)
        px += share * move[0]
        py += share * move[1]
        pz += share * move[2]
      }
    out[at] = px
    out[at + 1] = py
    out[at + 2] = pz
  },
}

const known = new WeakMap<FigureAsset, FigureAsset>()

/** The first sitter, as readFigureAsset gives it, with a face of its own: the same record each time. Some 20 ms at first. */
export function withAsymmetry(asset: FigureAsset): FigureAsset {
  const made = known.get(asset) ?? displaced(asset)
  known.set(asset, made)
  return made
}

function displaced(asset: FigureAsset): FigureAsset {
  const mover = new Mover(moves)
  return {
    ...asset,
    parts: asset.parts.map((part) => (part.name === 'skin' ? mover.part(part) : part)),
    landmarks: Object.fromEntries(
      Object.entries(asset.landmarks).map(([name, place]) => [name, mover.landmark(place)]),
    ) as Record<LandmarkName, Landmark>,
  }
}
