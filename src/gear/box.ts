import {
  BARE_DOME_FLUX,
  boxExtent,
  boxProfile,
  boxTransmittance,
  type Gate,
  type InnerBaffle,
  type LitSurface,
  lobeTable,
  outlineOf,
  sphereMultiplier,
} from '../photometry'
import { radians, subtract, type Vec3 } from '../space'
import { BLACK, BOX_CLOTH, grey } from './cloths'
import { choice, length, numberOf, optional, share, wordOf } from './fields'
import { ahead, asSolids, BODY_RADIUS_M } from './head'
import type { GearSolid } from './solids'
import type { BuiltModifier, Field, Modifier } from './types'

/** Side of the plate at the back, where the rods meet: common practice, no source. */
export const BACK_PLATE_M = 0.15
const FORWARD_EXPONENT = 11

/** Of every box: how deep it is, and what its cloths do. */
export const clothFields = (depthM: number): readonly Field[] => [
  length('depthM', 'Depth from the back plate to the cloth', depthM, [0.15, 0.8], [0.3, 0.6]),
  share('forwardShare', 'Share of the light that keeps its direction', 0, [0, 0.4]),
  optional(choice('inner', 'Inner cloth, as a share of the section', ['none', '60 %', 'full'])),
  optional(length('lipM', 'Lip before the cloth', 0, [0, 0.15], [0, 0.08])),
  optional(choice('grid', 'Cloth grid, cut-off to each side', ['none', '60°', '45°', '30°'])),
  length('bodyM', 'Length of the head behind the box', 0.3, [0, 0.6], [0.2, 0.45]),
]

export interface BoxShape {
  readonly surface: Extract<LitSurface, { shape: 'rectangle' | 'octagon' }>
  /** Of the rectangle that has its area and its corners' reach: an octagon counts as a square. */
  readonly widthM: number
  readonly heightM: number
  /** The lip's opening as rays pass it. */
  readonly lip: (lipM: number) => Gate
  readonly shell: (depthM: number, reflectance: number) => readonly GearSolid[]
  readonly litFace: BuiltModifier['litFace']
  readonly name: string
}

/** Silver lining, lamp under a bare dome, one or two cloths, a lip, a cloth grid. A grid cuts sooner than the lip that holds it. */
export function box(modifier: Modifier, shape: BoxShape): BuiltModifier {
  const depthM = numberOf(modifier, 'depthM')
  const bodyM = numberOf(modifier, 'bodyM')
  const lipM = numberOf(modifier, 'lipM')
  const grid = wordOf(modifier, 'grid')
  const inner = wordOf(modifier, 'inner') as InnerBaffle
  const size = { widthM: shape.widthM, heightM: shape.heightM, depthM, backM: BACK_PLATE_M }
  const emission = lobeTable({
    surface: shape.surface,
    relative: boxProfile(depthM, boxExtent(size, inner)),
    flux: BARE_DOME_FLUX * boxTransmittance(size, inner),
    forward: { share: numberOf(modifier, 'forwardShare'), exponent: FORWARD_EXPONENT, lamp: [0, 0, -depthM] },
    gate: grid !== 'none' ? cellsOf(grid) : lipM > 0 ? shape.lip(lipM) : { kind: 'open' },
  })
  const behind = { from: [0, 0, -depthM], to: [0, 0, -depthM - bodyM], radiusM: BODY_RADIUS_M } as const
  return {
    emitters: [{ id: 'cloth', part: 'front', frame: ahead(0), emission, cloth: { solid: 0, side: 'front' } }],
    solids: [
      ...shape.shell(depthM, boxReflectance(size)),
      ...asSolids(bodyM > 0 ? [behind] : []),
      ...(lipM > 0 ? lipWalls(outlineOf(shape.surface), lipM) : []),
    ],
    litFace: shape.litFace,
    tint: [1, 1, 1],
    name: [shape.name, ...withWords(inner, grid)].join(' '),
    lining: 'silver inside',
  }
}

function withWords(inner: InnerBaffle, grid: string): string[] {
  const words = [...(inner === 'none' ? [] : ['inner cloth']), ...(grid === 'none' ? [] : [`${grid} grid`])]
  return words.length > 0 ? [`with ${words.join(' and ')}`] : []
}

/** As with metal grids: width/depth = tan(label). A cell as deep as wide is one of 45°. */
const cellsOf = (label: string): Gate => ({
  kind: 'cells',
  depthOverWidth: 1 / Math.tan(radians(Number.parseInt(label, 10))),
})

/** Black walls from the edge of the cloth forwards. */
function lipWalls(corners: readonly Vec3[], lipM: number): GearSolid[] {
  return corners.map((a, i) => {
    const b = corners[(i + 1) % corners.length]!
    const along = subtract(b, a)
    return {
      kind: 'rectangle',
      rect: {
        centre: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, lipM / 2],
        halfU: [along[0] / 2, along[1] / 2, 0],
        halfV: [0, 0, lipM / 2],
      },
      albedo: BLACK,
      back: { kind: 'matt', albedo: BLACK },
    }
  })
}

/** Of the front cloth before its lining: what the cloth throws back, and what passes it twice by way of the lining. */
function boxReflectance({ widthM, heightM, depthM }: { widthM: number; heightM: number; depthM: number }): number {
  const { transmittance, reflectance, lining } = BOX_CLOTH
  const front = widthM * heightM
  const walls = depthM * (widthM + heightM + 2 * BACK_PLATE_M) + BACK_PLATE_M ** 2
  const open = front / (front + walls)
  const inside = open * sphereMultiplier(lining, open)
  return reflectance + (transmittance ** 2 * inside) / (1 - reflectance * inside)
}

/** A flat dark board of the shell, whose front may be a cloth. */
export const board = (centreZ: number, widthM: number, heightM: number, albedo = BLACK): GearSolid => ({
  kind: 'rectangle',
  rect: { centre: [0, 0, centreZ], halfU: [widthM / 2, 0, 0], halfV: [0, heightM / 2, 0] },
  albedo,
  back: { kind: 'matt', albedo: BLACK },
})

/** The back of a four-cornered box as light from elsewhere meets it: front outline just behind the cloth, middle, back plate. */
export function fourCornered(widthM: number, heightM: number, name: string): BoxShape {
  const middle = (a: number) => (a + BACK_PLATE_M) / 2
  return {
    ...{ surface: { shape: 'rectangle', widthM, heightM }, widthM, heightM, name },
    lip: (zM) => ({ kind: 'window', zM, widthM, heightM }),
    shell: (depthM, reflectance) => [
      board(-0.002, widthM, heightM, grey(reflectance)),
      board(-depthM / 2, middle(widthM), middle(heightM)),
      board(-depthM, BACK_PLATE_M, BACK_PLATE_M),
    ],
    litFace: { shape: 'rectangle', widthM, heightM },
  }
}

export const sideFields = (widthM: number, heightM: number, usual: readonly [number, number]): readonly Field[] => [
  length('widthM', 'Width of the front cloth', widthM, [0.2, 2], usual),
  length('heightM', 'Height of the front cloth', heightM, [0.2, 2], usual),
]
