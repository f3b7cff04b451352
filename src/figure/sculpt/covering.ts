import { spline } from './curves'
import * as data from './data/worn'
import { creased, ROOT_DEPTH } from './hair'
import { valueNoise } from './noise'
import { capsule, ellipsoid, type Field, mix, smoothMax, smoothMin, smoothStep } from './solids'
import { torso } from './torso'

const openingHalfBreadth = spline(data.OPENING_HALF_BREADTH)
/** Over the garment, which is 4 over the skin. */
const OVER_TORSO = 8

/** Head under cloth: gathered hair and ears make it rounder. */
function clothedHead(base: number, ax: number, y: number, z: number): number {
  const over = 4.5 + 8 * smoothStep(24, 96, y) + 6 * smoothStep(-50, -120, z) * smoothStep(-80, -30, y)
  const [, gy, gz, ...gathered] = data.GATHERED
  const [ex, ey, ez, ...ear] = data.COVERED_EAR
  const head = smoothMin(base - over, ellipsoid(ax, y - gy, z - gz, ...gathered), 44)
  return smoothMin(head, ellipsoid(ax - ex, y - ey, z - ez, ...ear), 26)
}

function drape(head: number, trunk: number, ax: number, y: number, z: number): number {
  let f = smoothMin(head, trunk - OVER_TORSO, 30)
  f = smoothMin(f, capsule(ax, y, z, ...data.CHIN_DRAPE), 34)
  f = smoothMin(f, capsule(ax, y, z, ...data.JAW_DRAPE), 40)
  return smoothMin(f, capsule(ax, y, z, ...data.NAPE_DRAPE), 44)
}

/** Rolls of a cloth wound round the neck, hanging folds under them, and slight pulls over the head: height, mm. */
function folds(x: number, y: number, z: number): number {
  const across = z + 84
  const size = Math.sqrt(x * x + across * across) || 1
  const [s, c] = [x / size, across / size]
  const wound = smoothStep(-92, -118, y) * smoothStep(-205, -172, y)
  const turns = y / 31 + 0.75 * s + 0.3 * c + 1.1 * valueNoise(1.7 * s + 9, 1.7 * c + 9, y * 0.012)
  const rolls = Math.sqrt(Math.sin(Math.PI * turns) ** 2 + 0.015)
  const hanging = smoothStep(-150, -195, y)
  const pleats = creased(valueNoise(4.6 * s + 40 + 0.02 * y * c, 4.6 * c + 40, y * 0.007))
  const head = smoothStep(-118, -86, y)
  const pulls = creased(valueNoise(y * 0.035 + 0.03 * z + 5, 1.3 * s + 20, 0.012 * y))
  return wound * (6.5 * rolls - 3.5) + hanging * (7 * pleats - 4.5) + head * 2.4 * (pulls - 0.7)
}

/** Front view: under 0 in the face opening. */
function opening(ax: number, y: number): number {
  const half = openingHalfBreadth(y)
  const round =
    (Math.abs(ax / half) ** 2.3 + Math.abs((y - data.OPENING_Y) / data.OPENING_HALF_HEIGHT) ** 2.3) ** (1 / 2.3)
  return (round - 1) * half * 0.9
}

/** A cloth over hair, ears, neck and shoulders, as one closed solid whose inner face lies under the skin. */
export function coveringField(base: Field): Field {
  return (x, y, z) => {
    const ax = Math.abs(x)
    const skull = base(x, y, z)
    if (skull > 170) return skull - 130
    const trunk = y < 0 ? torso(ax, y, z) : 1e3
    const bare = smoothMin(skull, trunk, 16)
    // Under the chin the cloth goes on: a cut there would leave leaves thinner than the mesh.
    const face = smoothMax(opening(ax, y), mix(-70, -2, smoothStep(-78, -104, y)) - z, 4)
    const quiet = smoothStep(2, 16, face)
    const cloth = drape(clothedHead(skull, ax, y, z), trunk, ax, y, z) - folds(x, y, z) * quiet
    const open = smoothMax(cloth, -face, 3)
    const [, hy, hz, ...hem] = data.HEM
    const hemmed = smoothMax(open, ellipsoid(ax, Math.min(0, y - hy), z - hz, ...hem), 4)
    return Math.max(hemmed * 0.85, -(bare + ROOT_DEPTH))
  }
}
