import { addScaled, type Mesh, type Vec3 } from '../../space'
import { pressedUnderHat } from '../sculpt/hat'
import { withoutScalp } from '../sculpt/paint'
import type { FigureAsset, FigurePart, Landmark, WornName } from '../types'
import { withGrowth } from './combed'
import { PLAIN_WEAR, type Wardrobe, type Wear, wornParts } from './wear'

const MM = 1000
const known = new WeakMap<FigureAsset, Map<string, FigureAsset>>()

/**
 * The first sitter in what they wear, before any shape or pose; the same record each time, so that whoever goes by identity
 * makes nothing anew. Throws where a part has not been fetched: missingParts says so beforehand.
 */
export function dressFigure(asset: FigureAsset, wear: Wear, wardrobe: Wardrobe): FigureAsset {
  const dresses = known.get(asset) ?? new Map<string, FigureAsset>()
  known.set(asset, dresses)
  const key = `${wear.hairCut} ${wear.headwear}`
  const before = dresses.get(key)
  if (before) return before
  const dressed = dress(asset, wear, wardrobe)
  dresses.set(key, dressed)
  return dressed
}

function dress(asset: FigureAsset, wear: Wear, wardrobe: Wardrobe): FigureAsset {
  if (wear.hairCut === PLAIN_WEAR.hairCut && wear.headwear === PLAIN_WEAR.headwear) return asset
  const worn = new Map(wornParts(wear).map((name) => [name, fetched(name, wardrobe)]))
  const hair = hairOf(asset, wear, worn.get('longHair'))
  const parts = asset.parts.flatMap((part): FigurePart[] => {
    if (part.name === 'hair') return hair ? [hair] : []
    return [part.name === 'skin' ? skinUnder(part, wear, hair !== null) : part]
  })
  const headwear = [...worn].flatMap(([name, part]) => (name === 'longHair' ? [] : [part]))
  const all = [...parts, ...headwear]
  const { crown, backOfHead } = asset.landmarks
  const outer = (place: Landmark) => outermost(place, [...(hair ? [hair] : parts.slice(0, 1)), ...headwear])
  return { ...asset, parts: all, landmarks: { ...asset.landmarks, crown: outer(crown), backOfHead: outer(backOfHead) } }
}

function fetched(name: WornName, wardrobe: Wardrobe): FigurePart {
  const part = wardrobe[name]
  if (!part) throw new Error(`figure.dressFigure: ${name} has not been fetched; ask missingParts and fetch it first`)
  return part
}

function hairOf(asset: FigureAsset, { hairCut, headwear }: Wear, long: FigurePart | undefined): FigurePart | null {
  const short = asset.parts.find(({ name }) => name === 'hair')
  const hair = long ?? short
  if (!hair || hairCut === 'bald' || headwear === 'covering') return null
  return headwear === 'hat' ? underHat(hair) : hair
}

/** The skin with what grows on it in that wear. */
function skinUnder(skin: FigurePart, { hairCut }: Wear, isHairSeen: boolean): FigurePart {
  if (hairCut === 'bald') return shaved(skin)
  if (!isHairSeen) return { ...skin, grain: undefined }
  return hairCut === 'long' ? withGrowth(skin, true) : skin
}

/** The skin without hair, and without the dark of the roots. */
function shaved(skin: FigurePart): FigurePart {
  const { positions: p } = skin.mesh
  const tint = skin.tint.slice()
  for (let i = 0; i < p.length; i += 3)
    tint.set(withoutScalp([tint[i], tint[i + 1], tint[i + 2]], p[i] * MM, p[i + 1] * MM, p[i + 2] * MM), i)
  return { ...skin, tint, grain: undefined }
}

function underHat(hair: FigurePart): FigurePart {
  const positions = hair.mesh.positions.slice()
  for (let i = 0; i < positions.length; i += 3)
    pressedUnderHat(positions[i] * MM, positions[i + 1] * MM, positions[i + 2] * MM).forEach((v, k) => {
      positions[i + k] = v / MM
    })
  return { ...hair, mesh: { ...hair.mesh, positions } }
}

/** From how deep under a place its line is followed outwards, metres. */
const FROM_UNDER = 0.03

/** The place moved along its normal to the outermost of these surfaces; as it was where none is met. */
function outermost(place: Landmark, parts: readonly FigurePart[]): Landmark {
  const from = addScaled(place.position, place.normal, -FROM_UNDER)
  const far = Math.max(...parts.map(({ mesh }) => farthestHit(mesh, from, place.normal)))
  return far > 0 ? { ...place, position: addScaled(from, place.normal, far) } : place
}

/** Distance to the last triangle on a ray (Möller and Trumbore 1997); 0: none. */
function farthestHit({ positions: p, indices }: Mesh, [ox, oy, oz]: Vec3, [dx, dy, dz]: Vec3): number {
  let far = 0
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [indices[t] * 3, indices[t + 1] * 3, indices[t + 2] * 3]
    const [ux, uy, uz] = [p[b] - p[a], p[b + 1] - p[a + 1], p[b + 2] - p[a + 2]]
    const [vx, vy, vz] = [p[c] - p[a], p[c + 1] - p[a + 1], p[c + 2] - p[a + 2]]
    const [hx, hy, hz] = [dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx]
    const det = ux * hx + uy * hy + uz * hz
    if (Math.abs(det) < 1e-15) continue
    const [sx, sy, sz] = [ox - p[a], oy - p[a + 1], oz - p[a + 2]]
    const u = (sx * hx + sy * hy + sz * hz) / det
    const [qx, qy, qz] = [sy * uz - sz * uy, sz * ux - sx * uz, sx * uy - sy * ux]
    const v = (dx * qx + dy * qy + dz * qz) / det
    if (u < 0 || v < 0 || u + v > 1) continue
    far = Math.max(far, (vx * qx + vy * qy + vz * qz) / det)
  }
  return far
}
