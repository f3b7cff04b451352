import { areaOf, outlineOf } from '../photometry'
import { BACK_PLATE_M, type BoxShape, board, box, clothFields } from './box'
import { BLACK, grey } from './cloths'
import { following, length, numberOf } from './fields'
import { inCentimetres } from './head'
import type { ModifierKind, Problem } from './types'

/** An eight-cornered softbox, drawn behind as the dome that its ribs make. Lit face: the front cloth, across its flats. */
export const octaBox: ModifierKind = {
  id: 'octa',
  label: 'Octa box, silver inside',
  fields: [
    length('diameterM', 'Front cloth, across the flats', 1.2, [0.4, 2.2], [0.9, 1.5]),
    ...clothFields(0.45).map((field) => (field.id === 'depthM' ? following(field, 'diameterM') : field)),
  ],
  build: (modifier) => box(modifier, eightCornered(numberOf(modifier, 'diameterM'))),
  check: (modifier, path): readonly Problem[] => {
    const [across, depth] = [numberOf(modifier, 'diameterM'), numberOf(modifier, 'depthM')]
    if (depth <= across / 2) return []
    return [
      {
        path: `${path}.depthM`,
        expected: `at most half of the width, ${(across / 2).toFixed(2)} m`,
        got: `${depth} m`,
        advice: 'Make it flatter or wider.',
      },
    ]
  },
}

/** Its inside counts as that of a square box of equal area. */
function eightCornered(widthM: number): BoxShape {
  const surface = { shape: 'octagon', widthM } as const
  const sideM = Math.sqrt(areaOf(surface))
  const reachM = Math.hypot(...outlineOf(surface)[0]!)
  return {
    ...{ surface, widthM: sideM, heightM: sideM, name: `octa box ${inCentimetres(widthM)}` },
    // Round its corners, so that straight ahead nothing is lost.
    lip: (zM) => ({ kind: 'opening', zM, radiusM: reachM }),
    shell: (depthM, reflectance) => [
      {
        ...{ kind: 'disc', centre: [0, 0, -0.002], normal: [0, 0, 1], radiusM: widthM / 2 },
        ...{ albedo: grey(reflectance), back: { kind: 'matt', albedo: BLACK } },
      },
      {
        ...{ kind: 'cap', rimCentre: [0, 0, -0.004], axis: [0, 0, -1], diameterM: widthM, depthM: depthM - 0.004 },
        ...{ albedo: BLACK, back: { kind: 'matt', albedo: BLACK } },
      },
      board(-depthM - 0.002, BACK_PLATE_M, BACK_PLATE_M),
    ],
    litFace: { shape: 'disc', widthM, heightM: widthM },
  }
}
