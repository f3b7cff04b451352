import type { FigureAsset, FigurePart, Landmark, LandmarkName, PartName } from '../../src/figure'
import type { Vec3 } from '../../src/space'

/**
 * A sitter as a mirror shows them: hair and cloth are not alike on both sides, so a mirrored set needs a mirrored person. What a
 * place is, its paint, grain and seams, goes with it.
 */
export const mirroredFigure = (figure: FigureAsset): FigureAsset => ({
  ...figure,
  parts: figure.parts.map(mirroredPart),
  landmarks: Object.fromEntries(
    Object.entries(figure.landmarks).map(([name, place]) => [otherSide(name), mirroredPlace(place)]),
  ) as Record<LandmarkName, Landmark>,
  headPivot: across(figure.headPivot),
})

const across = ([x, y, z]: Vec3): Vec3 => [-x, y, z]
const mirroredPlace = (place: Landmark): Landmark => ({
  ...place,
  position: across(place.position),
  normal: across(place.normal),
})

const otherSide = <N extends LandmarkName | PartName | string>(name: N): N =>
  (name.endsWith('Left') ? name.replace(/Left$/, 'Right') : name.replace(/Right$/, 'Left')) as N

const mirroredPart = (part: FigurePart): FigurePart => ({
  ...part,
  name: otherSide(part.name),
  mesh: {
    positions: acrossAll(part.mesh.positions),
    normals: acrossAll(part.mesh.normals),
    indices: turnedOver(part.mesh.indices),
  },
  proxyIndices: turnedOver(part.proxyIndices),
  combed: part.combed && acrossAll(part.combed),
})

const acrossAll = (values: Float32Array): Float32Array => values.map((value, i) => (i % 3 === 0 ? -value : value))

/** Triangles that still face outwards. */
const turnedOver = (indices: Uint32Array): Uint32Array =>
  indices.map((_, i) => indices[i % 3 === 0 ? i : i % 3 === 1 ? i + 1 : i - 1]!)
