import { lobeTable, STANDARD_FLUX } from '../photometry'
import type { Rect } from '../space'
import { DARK_METAL } from './cloths'
import { length, numberOf } from './fields'
import { ahead, inCentimetres } from './head'
import type { GearSolid } from './solids'
import type { ModifierKind, Problem } from './types'

/** What the opal ring over the tube lets through of the light that a dish would throw: common practice, no source. */
const OPAL_PASS = 0.8
const BODY_SIDES = 12

/** A tube round the lens under an opal ring, lit evenly and matt. Lit face: the ring, with the lens in its hole. */
export const ringFlash: ModifierKind = {
  id: 'ring-flash',
  label: 'Ring flash',
  onCamera: 'round the lens',
  fields: [
    length('diameterM', 'Ring, outer edge', 0.2, [0.1, 0.6], [0.16, 0.3]),
    length('holeM', 'Hole for the lens', 0.11, [0.05, 0.5], [0.08, 0.16]),
  ],
  build: (modifier) => {
    const diameterM = numberOf(modifier, 'diameterM')
    const [outer, inner] = [diameterM / 2, numberOf(modifier, 'holeM') / 2]
    const emission = lobeTable({
      surface: { shape: 'disc', radiusM: outer },
      relative: (x, y) => (Math.hypot(x, y) >= inner ? 1 : 0),
      mean: 1 - (inner / outer) ** 2,
      flux: STANDARD_FLUX * OPAL_PASS,
    })
    return {
      emitters: [{ id: 'ring', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
      solids: ringBody(outer, inner),
      litFace: { shape: 'disc', widthM: diameterM, heightM: diameterM },
      tint: [1, 1, 1],
      name: `ring flash ${inCentimetres(diameterM)}`,
    }
  },
  check: (modifier, path): readonly Problem[] => {
    const [outer, hole] = [numberOf(modifier, 'diameterM'), numberOf(modifier, 'holeM')]
    if (hole <= outer - 0.02) return []
    return [
      {
        path: `${path}.holeM`,
        expected: `at most ${(outer - 0.02).toFixed(2)} m, so that a ring is left`,
        got: `${hole} m`,
        advice: 'Make the hole smaller or the ring larger.',
      },
    ]
  },
}

/** Flat boards side by side round the hole: a lens must look through it. */
const ringBody = (outer: number, inner: number): GearSolid[] =>
  Array.from({ length: BODY_SIDES }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.5)) / BODY_SIDES
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    const [middle, half, across] = [(outer + inner) / 2, (outer - inner) / 2, outer * Math.tan(Math.PI / BODY_SIDES)]
    const rect: Rect = {
      centre: [middle * c, middle * s, -0.003],
      halfU: [half * c, half * s, 0],
      halfV: [-across * s, across * c, 0],
    }
    return { kind: 'rectangle', rect, albedo: DARK_METAL, back: { kind: 'matt', albedo: DARK_METAL } }
  })
