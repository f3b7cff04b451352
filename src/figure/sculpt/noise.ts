/** Smooth value noise in 0..1 from an integer hash: no Math.sin, so every machine gives the same bits. */
export function valueNoise(x: number, y: number, z: number): number {
  const i = Math.floor(x)
  const j = Math.floor(y)
  const k = Math.floor(z)
  const u = ease(x - i)
  const v = ease(y - j)
  const w = ease(z - k)
  const near = bilinear(i, j, k, u, v)
  return near + (bilinear(i, j, k + 1, u, v) - near) * w
}

function bilinear(i: number, j: number, k: number, u: number, v: number): number {
  const a = corner(i, j, k)
  const b = corner(i, j + 1, k)
  const low = a + (corner(i + 1, j, k) - a) * u
  return low + (b + (corner(i + 1, j + 1, k) - b) * u - low) * v
}

const ease = (t: number): number => t * t * (3 - 2 * t)

function corner(i: number, j: number, k: number): number {
  let h = Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1) ^ Math.imul(k, 0x9e3779b1)
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32
}
