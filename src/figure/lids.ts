import { type Mesh, radians, type Vec3 } from '../space'

/**
 * The lids go up and down with the eyes, sliding over the ball: the upper lid by most of the way, the lower by less (shares
 * from memory). Upwards the upper one goes less than a person's: farther, facets of shadow show over its crease. Metres,
 * and degrees about the ball's centre, up from straight ahead.
 */
const UPPER_SHARE = { up: 0.4, down: 0.7 } as const
const LOWER_SHARE = 0.4
/** Both margins of an open lid lie some 20° from straight ahead; what moves with them fades out as far as brow and cheek. */
const MARGIN_DEG = 18
const FADED_DEG = 80
const CORNER_M = 0.0165
const SKIN_M = 0.015
const BEYOND_M = 0.027

const last = new WeakMap<Mesh, { readonly upDeg: number; readonly turned: Mesh }>()

/** The skin with its lids where eyes that look so far up have them. centres: of both eyeballs, in the mesh's frame. The last one is kept. */
export function lidsFollowing(mesh: Mesh, centres: readonly Vec3[], upDeg: number): Mesh {
  if (upDeg === 0) return mesh
  const known = last.get(mesh)
  if (known?.upDeg === upDeg) return known.turned
  const turned = lidsTurned(mesh, centres, upDeg)
  last.set(mesh, { upDeg, turned })
  return turned
}

function lidsTurned(mesh: Mesh, centres: readonly Vec3[], upDeg: number): Mesh {
  const positions = mesh.positions.slice()
  const normals = mesh.normals.slice()
  const upper = upDeg > 0 ? UPPER_SHARE.up : UPPER_SHARE.down
  for (let i = 0; i < positions.length; i += 3)
    for (const [cx, cy, cz] of centres) {
      const z = positions[i + 2] - cz
      if (z <= 0) continue
      const [x, y] = [positions[i] - cx, positions[i + 1] - cy]
      const share = shareAt(x, y, z, upper)
      if (share === 0) continue
      const angle = radians(upDeg * share)
      const [c, s] = [Math.cos(angle), Math.sin(angle)]
      positions[i + 1] = cy + y * c + z * s
      positions[i + 2] = cz + z * c - y * s
      const [ny, nz] = [normals[i + 1], normals[i + 2]]
      normals[i + 1] = ny * c + nz * s
      normals[i + 2] = nz * c - ny * s
    }
  return { ...mesh, positions, normals }
}

/** How far a lid's margin turns about the ball with eyes that look so far up: radians, up positive. */
export const lidTurn = (upDeg: number, lid: 'upper' | 'lower'): number =>
  radians(upDeg * (lid === 'lower' ? LOWER_SHARE : upDeg > 0 ? UPPER_SHARE.up : UPPER_SHARE.down))

/** How much of the eyes' way up a place of the skin before a ball's centre goes with them, 0 to 1. */
function shareAt(x: number, y: number, z: number, upper: number): number {
  if (Math.abs(x) >= CORNER_M) return 0
  const r = Math.sqrt(x * x + y * y + z * z)
  if (r >= BEYOND_M) return 0
  const upwards = (Math.atan2(y, z) * 180) / Math.PI
  const side = LOWER_SHARE + (upper - LOWER_SHARE) * smoothly(-MARGIN_DEG, MARGIN_DEG, upwards)
  const faded = 1 - smoothly(MARGIN_DEG, FADED_DEG, Math.abs(upwards))
  const across = (1 - (x / CORNER_M) ** 2) ** 1.5
  return side * faded * across * (1 - smoothly(SKIN_M, BEYOND_M, r))
}

function smoothly(from: number, to: number, at: number): number {
  const t = Math.min(1, Math.max(0, (at - from) / (to - from)))
  return t * t * (3 - 2 * t)
}
