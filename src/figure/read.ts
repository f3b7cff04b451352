import { FigureFileError, type Glb, need, parseGlb, readFloats, readIndices } from './glb'
import { lazily, once } from './lazily'
import { buildProxyMap } from './proxy'
import { headWeight } from './sculpt/headWeight'
import { withGloss } from './skin-gloss'
import {
  type FigureAsset,
  type FigurePart,
  LANDMARK_NAMES,
  type Landmark,
  type LandmarkName,
  PART_NAMES,
  type PartName,
  type WornName,
} from './types'
import { withCombed, withGrowth } from './worn/combed'
import { withSeams } from './worn/sewn'
import { softened } from './worn/soft'
import type { Wardrobe } from './worn/wear'

const MM = 1000

/** The figure from its asset file (assets/sitter.glb). Takes about 0.1 s. Throws FigureFileError with the place and the remedy. */
export function readFigureAsset(bytes: ArrayBuffer | Uint8Array): FigureAsset {
  const glb = parseGlb(bytes)
  const extras = need(glb.json.extras, 'extras', 'landmarks and headPivot') as Record<string, unknown>
  return {
    parts: PART_NAMES.map((name) => withPlaces(readPart(glb, name))),
    landmarks: readLandmarks(need(extras.landmarks, 'extras.landmarks', 'named places')),
    headPivot: triple(extras.headPivot, 'extras.headPivot'),
  }
}

/** What its looks need to know of a part's places. */
function withPlaces(part: FigurePart): FigurePart {
  if (part.name === 'hair') return withCombed(softened(part), false)
  if (part.name === 'skin') return withGloss(withGrowth(part, false))
  return part.name === 'garment' ? withSeams(part) : part
}

/** A part that is worn, from its own file. Throws FigureFileError with the place and the remedy. */
export const readWornPart = (name: WornName, bytes: ArrayBuffer | Uint8Array): FigurePart =>
  name === 'longHair'
    ? withCombed(softened(readPart(parseGlb(bytes), 'hair')), true)
    : readPart(parseGlb(bytes), 'headwear')

/** Parts that are worn, from the bytes of their files. */
export const readWardrobe = (files: Partial<Record<WornName, ArrayBuffer | Uint8Array>>): Wardrobe =>
  Object.fromEntries(Object.entries(files).map(([name, bytes]) => [name, readWornPart(name as WornName, bytes)]))

function readPart(glb: Glb, name: PartName): FigurePart {
  const { json } = glb
  const node = need(
    json.nodes?.find((candidate) => candidate.name === name),
    `nodes "${name}"`,
    'a node of that name',
  )
  const path = `meshes[${node.mesh}] (${name})`
  const mesh = need(json.meshes?.[need(node.mesh, `nodes "${name}".mesh`, 'a mesh number')], path, 'a mesh')
  const primitive = need(mesh.primitives?.[0], `${path}.primitives[0]`, 'a primitive')
  const attribute = (key: string): Float32Array => {
    const where = `${path}.attributes.${key}`
    return readFloats(glb, need(primitive.attributes[key], where, 'an accessor number'), where)
  }
  const positions = attribute('POSITION')
  placeInNode(positions, node.translation ?? [0, 0, 0], node.scale ?? [1, 1, 1])
  const n = positions.length / 3
  const normals = attribute('NORMAL')
  normalizeAll(normals)
  const extras = (mesh.extras ?? {}) as { readonly proxyIndices?: number; readonly headWeight?: number }
  const indices = readIndices(glb, primitive.indices, n, `${path}.indices`)
  const proxyPath = `${path}.extras.proxyIndices`
  const proxyIndices = readIndices(glb, need(extras.proxyIndices, proxyPath, 'an accessor number'), n, proxyPath)
  const part = {
    name,
    mesh: { positions, normals, indices },
    // Of a part without paint it is left out of the file.
    tint: primitive.attributes.COLOR_0 === undefined ? new Float32Array(n * 3).fill(1) : attribute('COLOR_0'),
    headWeight: headWeights(positions, extras.headWeight),
    proxyIndices,
  }
  const proxies = once(() => buildProxyMap(positions, indices, proxyIndices))
  return lazily<FigurePart>(part, {
    proxyCorners: () => proxies().proxyCorners,
    proxyWeights: () => proxies().proxyWeights,
  })
}

/** One number throughout, or by the recipe's own ramp down the neck: it costs no bytes. */
function headWeights(positions: Float32Array, constant: number | undefined): Float32Array {
  const weights = new Float32Array(positions.length / 3)
  if (constant !== undefined) return weights.fill(constant)
  for (let v = 0; v < weights.length; v++) weights[v] = headWeight(positions[v * 3 + 1] * MM, positions[v * 3 + 2] * MM)
  return weights
}

function placeInNode(positions: Float32Array, translation: readonly number[], scale: readonly number[]): void {
  for (let i = 0; i < positions.length; i++) positions[i] = positions[i] * scale[i % 3] + translation[i % 3]
}

/** Narrow integers leave normals up to 1 % off unit length. */
function normalizeAll(normals: Float32Array): void {
  for (let i = 0; i < normals.length; i += 3) {
    const size = Math.hypot(normals[i], normals[i + 1], normals[i + 2])
    if (!(size > 0.5)) throw new FigureFileError(`NORMAL[${i / 3}]`, 'a unit vector', `length ${size}`)
    for (let k = 0; k < 3; k++) normals[i + k] /= size
  }
}

function readLandmarks(value: unknown): Record<LandmarkName, Landmark> {
  const places = value as Record<string, Record<string, unknown> | undefined>
  return Object.fromEntries(
    LANDMARK_NAMES.map((name): [LandmarkName, Landmark] => {
      const path = `extras.landmarks.${name}`
      const place = need(places[name], path, 'a place')
      if (typeof place.headWeight !== 'number')
        throw new FigureFileError(`${path}.headWeight`, '0 to 1', place.headWeight)
      return [
        name,
        {
          position: triple(place.position, `${path}.position`),
          normal: triple(place.normal, `${path}.normal`),
          headWeight: place.headWeight,
        },
      ]
    }),
  ) as Record<LandmarkName, Landmark>
}

function triple(value: unknown, path: string): [number, number, number] {
  if (Array.isArray(value) && value.length === 3 && value.every((v) => Number.isFinite(v)))
    return [value[0], value[1], value[2]]
  throw new FigureFileError(path, 'three numbers in metres', JSON.stringify(value))
}
