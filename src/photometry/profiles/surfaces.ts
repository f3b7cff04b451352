import type { Vec3 } from '../../space'
import type { Emission, LitSurface, SurfacePoint } from '../emission'
import { capRadius } from './segments'

const UP: Vec3 = [0, 0, 1]

/** m²; of a cap the cloth's, not the opening's. */
export function areaOf(surface: LitSurface): number {
  switch (surface.shape) {
    case 'disc':
      return Math.PI * surface.radiusM ** 2
    case 'rectangle':
      return surface.widthM * surface.heightM
    case 'octagon':
      return 2 * (Math.SQRT2 - 1) * surface.widthM ** 2
    case 'cap':
      return 2 * Math.PI * capRadius(surface.diameterM, surface.depthM) * surface.depthM
  }
}

/** The unit square onto the surface, equal areas to equal areas, so the Jacobian is the area everywhere. */
export function pointOn(surface: LitSurface, u: number, v: number): SurfacePoint {
  const areaM2 = areaOf(surface)
  switch (surface.shape) {
    case 'disc': {
      const r = surface.radiusM * Math.sqrt(u)
      return { point: [r * Math.cos(2 * Math.PI * v), r * Math.sin(2 * Math.PI * v), 0], normal: UP, areaM2 }
    }
    case 'rectangle':
      return { point: [(u - 0.5) * surface.widthM, (v - 0.5) * surface.heightM, 0], normal: UP, areaM2 }
    case 'octagon':
      return { point: octagonPoint(surface.widthM, u, v), normal: UP, areaM2 }
    case 'cap':
      return { ...capPoint(surface, u, v), areaM2 }
  }
}

type Face = Pick<Emission, 'profile' | 'surface' | 'gate' | 'blockers'>

/**
 * Do evenly spread points stand for near-square cells of the face, as pointInCells lays them out? Not where a gate in which
 * the place counts or something of the source's own stands before the face, nor where a table says where points fall on a round one, nor on a
 * canopy, whose hot centre would lie between few such points.
 */
export const hasCells = ({ profile, surface, gate, blockers }: Face): boolean =>
  ['open', 'intensities', 'overcast'].includes(gate.kind) &&
  blockers.length === 0 &&
  profile !== 'canopy' &&
  (profile !== 'lobe-table' || surface.shape === 'rectangle')

/**
 * As pointOn, for points that stand for a cell of the unit square each. Where a face has cells, squares stay nearly square
 * (concentric map, P. Shirley and K. Chiu, A low distortion map between disk and square, 1997). What stands before a face
 * stands about its axis, so there the rings of pointOn are more even: at sixteen points a gridded dish errs by half as much.
 */
export function pointInCells(face: Face, u: number, v: number): SurfacePoint {
  const { surface } = face
  if (surface.shape === 'rectangle' || !hasCells(face)) return pointOn(surface, u, v)
  const [a, b] = [2 * u - 1, 2 * v - 1]
  const out = Math.max(a * a, b * b)
  const turn =
    out === 0 ? 0 : Math.abs(a) > Math.abs(b) ? b / a / 8 + (a < 0 ? 0.5 : 0) : 0.25 - a / b / 8 + (b < 0 ? 0.5 : 0)
  const round = (turn + 1) % 1
  return surface.shape === 'octagon' ? pointOn(surface, (round + 1 / 16) % 1, out) : pointOn(surface, out, round)
}

/** Eight triangles from the centre, taken in turn along u; v runs outwards. */
function octagonPoint(widthM: number, u: number, v: number): Vec3 {
  const side = Math.min(Math.floor(u * 8), 7)
  const across = 2 * (u * 8 - side) - 1
  const out = (widthM / 2) * Math.sqrt(v)
  const sideways = out * across * Math.tan(Math.PI / 8)
  const angle = (side * Math.PI) / 4
  return [out * Math.cos(angle) - sideways * Math.sin(angle), out * Math.sin(angle) + sideways * Math.cos(angle), 0]
}

/** Archimedes: equal heights of a sphere have equal areas; u runs from the apex to the rim. */
function capPoint(
  { diameterM, depthM, hollow }: Extract<LitSurface, { shape: 'cap' }>,
  u: number,
  v: number,
): { point: Vec3; normal: Vec3 } {
  const radius = capRadius(diameterM, depthM)
  const height = depthM * u
  const r = Math.sqrt(height * (2 * radius - height))
  const [x, y] = [r * Math.cos(2 * Math.PI * v), r * Math.sin(2 * Math.PI * v)]
  const towardsAxis = (radius - height) / radius
  return hollow
    ? { point: [x, y, height - depthM], normal: [-x / radius, -y / radius, towardsAxis] }
    : { point: [x, y, -height], normal: [x / radius, y / radius, towardsAxis] }
}
