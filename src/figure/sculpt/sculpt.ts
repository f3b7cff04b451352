/** The whole figure from its recipe: fields → parts → one asset in metres → its shape. Deterministic. */
import { buildProxyMap } from '../proxy'
import { AVERAGE_SHAPE, type FigureShape } from '../shape/fields'
import { shapeFigure } from '../shape/shapeFigure'
import type { FigureAsset, FigurePart, Landmark, LandmarkName, PartName, WornName } from '../types'
import { magnifiedCasters } from './casters'
import { EYE_X } from './data/eye'
import { eyeball } from './eyeball'
import { garmentField } from './garment'
import { hairField } from './hair'
import { headWeight } from './headWeight'
import { findLandmarks } from './landmarks'
import { type SculptedPart, type Simplify, sculptPart } from './part'
import { baseField } from './radiusMap'
import { garmentRecipe, hairRecipe, type SculptOptions, skinRecipe, type WornOptions, wornRecipe } from './recipes'
import { bustField } from './skin'

const MM = 1000
/** Between the condyles of the skull: where a head nods and turns, mm. */
export const HEAD_PIVOT_MM = [0, -35, -75] as const

export function sculptFigure(
  options: SculptOptions,
  simplify: Simplify,
  shape: FigureShape = AVERAGE_SHAPE,
): FigureAsset {
  return shapeFigure(averageFigure(options, simplify), shape)
}

function averageFigure(options: SculptOptions, simplify: Simplify): FigureAsset {
  const base = baseField()
  const { proxyTriangles: proxy } = options
  const eye = eyeball()
  return {
    parts: [
      inMetres('skin', sculptPart(skinRecipe(base, options), simplify), proxy.skin, simplify),
      inMetres('eyeLeft', shifted(eye, EYE_X), proxy.eye, simplify),
      inMetres('eyeRight', shifted(eye, -EYE_X), proxy.eye, simplify),
      inMetres('hair', sculptPart(hairRecipe(base, options), simplify), proxy.hair, simplify),
      inMetres('garment', sculptPart(garmentRecipe(options), simplify), proxy.garment, simplify),
    ],
    landmarks: landmarksInMetres(
      findLandmarks({ bust: bustField(base), hair: hairField(base), garment: garmentField }),
    ),
    headPivot: [HEAD_PIVOT_MM[0] / MM, HEAD_PIVOT_MM[1] / MM, HEAD_PIVOT_MM[2] / MM],
  }
}

/** A part that is worn, for the average sitter; shapeFigure fits it to others. */
export function sculptWorn(name: WornName, options: WornOptions, simplify: Simplify): FigurePart {
  const part = sculptPart(wornRecipe(name, baseField(), options), simplify)
  return inMetres(name === 'longHair' ? 'hair' : 'headwear', part, options.proxyTriangles, simplify)
}

const shifted = (part: SculptedPart, x: number): SculptedPart => ({
  ...part,
  positions: part.positions.map((value, i) => (i % 3 === 0 ? value + x : value)),
})

function inMetres(name: PartName, part: SculptedPart, proxyTriangles: number, simplify: Simplify): FigurePart {
  const { positions: mm, normals, tint, indices } = part
  const n = mm.length / 3
  const positions = Float32Array.from(mm, (v) => v / MM)
  const followsBody = name === 'garment'
  const weights = Float32Array.from({ length: n }, (_, v) =>
    followsBody ? 0 : headWeight(mm[v * 3 + 1], mm[v * 3 + 2]),
  )
  const attributes = new Float32Array(n * 6)
  for (let v = 0; v < n; v++) attributes.set(normals.subarray(v * 3, v * 3 + 3), v * 6)
  const isSkin = name === 'skin'
  const proxyIndices = simplify(
    indices,
    isSkin ? magnifiedCasters(mm) : Float32Array.from(mm),
    attributes,
    [0.2, 0.2, 0.2, 0, 0, 0],
    proxyTriangles * 3,
    // Even ones, also where skin is nearly flat: light that is thrown back is solved at their corners.
    true,
  )
  return {
    name,
    mesh: { positions, normals, indices },
    tint,
    headWeight: weights,
    proxyIndices,
    ...buildProxyMap(positions, indices, proxyIndices),
  }
}

function landmarksInMetres(places: Record<LandmarkName, Landmark>): Record<LandmarkName, Landmark> {
  const inMetre = ({ position: [x, y, z], ...rest }: Landmark): Landmark => ({
    position: [x / MM, y / MM, z / MM],
    ...rest,
  })
  return Object.fromEntries(Object.entries(places).map(([name, place]) => [name, inMetre(place)])) as Record<
    LandmarkName,
    Landmark
  >
}
