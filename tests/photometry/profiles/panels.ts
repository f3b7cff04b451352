import { canopy, type Emission, fresnelSchlick, ggx } from '../../../src/photometry'
import { add, addScaled, distance, dot, normalize, radians, scale, subtract, type Vec3 } from '../../../src/space'
import { dishOnly, umbrella } from './canopies'
import { type Check, mattCloth, rows, silverCloth, translucentCloth } from './check'
import type { Measures } from './measure'

export const round = (deg: number): Vec3 => [Math.sin(radians(deg)), 0, Math.cos(radians(deg))]
export const CHEEK: Vec3 = [-0.07, 0, 0.03]
export const OTHER_CHEEK: Vec3 = [0.07, 0, 0.03]
export const KEY: Vec3 = scale(round(45), 1.25)

export const panelCentre = (distanceM: number): Vec3 => addScaled(CHEEK, round(-75), distanceM)
type Finish = (normal: Vec3, towardsKey: Vec3, away: Vec3) => number

/** Light of a 1 × 1 m panel on the shadow cheek under the key's on the lit one, turned to where it throws most: so many degrees round. */
export function panelTurned(distanceM: number, luminance: Finish): { readonly stops: number; readonly yaw: number } {
  const centre = panelCentre(distanceM)
  let [best, bestYaw] = [0, 0]
  for (let yaw = 20; yaw <= 140; yaw += 4) {
    const [normal, across] = [round(yaw), round(yaw + 90)]
    let sum = 0
    const n = 20
    for (let k = 0; k < n * n; k++) {
      const up = (Math.floor(k / n) + 0.5) / n - 0.5
      const place = add(addScaled(centre, across, ((k % n) + 0.5) / n - 0.5), [0, up, 0])
      const toKey = subtract(KEY, place)
      const [away, towardsKey] = [normalize(subtract(CHEEK, place)), normalize(toKey)]
      const cosines = Math.max(0, dot(away, normal)) * Math.max(0, -dot(away, round(-60)))
      const lit = Math.max(0, dot(towardsKey, normal)) / dot(toKey, toKey)
      sum += (lit * luminance(normal, towardsKey, away) * cosines) / distance(CHEEK, place) ** 2 / n / n
    }
    if (sum > best) [best, bestYaw] = [sum, yaw]
  }
  return { stops: Math.log2(best * distance(KEY, OTHER_CHEEK) ** 2), yaw: bestYaw }
}
const panelStops = (distanceM: number, luminance: Finish): number => panelTurned(distanceM, luminance).stops
export const whitePanel: Finish = () => 0.85 / Math.PI
export const silverPanel =
  (r: number): Finish =>
  (normal, incident, away) =>
    0.88 * ggx(normal, incident, away, r * r)

/** Skin as a mirror of the source: the brightest point over all tilts against the matt light there. */
function sparkle(emission: Emission, roughness: number, by: Measures): number {
  const seen = by.arrivals(emission, [0, 0, 1], 64)
  const camera: Vec3 = [Math.sin(radians(45)), 0, -Math.cos(radians(45))]
  let [best, diffuse] = [0, 1]
  for (let turn = 18; turn <= 26; turn += 2)
    for (let tilt = 0; tilt <= 16; tilt += 2) {
      const normal = normalize([Math.sin(radians(turn)), Math.sin(radians(tilt)), -Math.cos(radians(turn))])
      let [shine, arriving] = [0, 0]
      for (const { towards, facing } of seen) {
        const cosine = Math.max(0, dot(towards, normal))
        const half = dot(normalize(add(towards, camera)), camera)
        shine +=
          facing *
          cosine *
          fresnelSchlick(0.028, Math.acos(Math.min(1, half))) *
          ggx(normal, towards, camera, roughness ** 2)
        arriving += facing * cosine
      }
      if (shine > best) [best, diffuse] = [shine, (0.35 / Math.PI) * arriving]
    }
  return Math.log2(best / diffuse)
}

const sparkles: Check = ({ expected, tolerance }, by) => {
  const face = (cloth: ReturnType<typeof mattCloth>) => canopy(umbrella(cloth, { shaftM: 0.537 }, 'inside', dishOnly))
  const kinds = {
    silver_r03: face(silverCloth(0.3)),
    silver_r05: face(silverCloth(0.5)),
    white: face(mattCloth(0.8)),
    through: canopy(umbrella(translucentCloth(0.6, 0.3), { shaftM: 0.537 }, 'outside')),
  }
  return Object.entries(kinds).flatMap(([name, emission]) =>
    rows(
      name,
      [0.15, 0.25, 0.35].map((r) => sparkle(emission, r, by)),
      expected[name],
      Number(tolerance),
    ),
  )
}

export const PANEL_CHECKS: readonly (readonly [RegExp, Check])[] = [
  [/^EMIT-SPARK$/, sparkles],
  [
    /^EMIT-PANEL$/,
    ({ expected, tolerance }) =>
      rows(
        'stops',
        [whitePanel, silverPanel(0.3), silverPanel(0.5)].map((l) => panelStops(0.6, l)),
        expected,
        Number(tolerance),
      ),
  ],
  [
    /^EMIT-PANEL-DIST$/,
    ({ expected, tolerance }) =>
      [whitePanel, silverPanel(0.3)].flatMap((luminance, i) =>
        rows(
          `panel ${i}`,
          [0.4, 0.6, 0.8, 1, 1.2].map((d) => panelStops(d, luminance)),
          expected[i],
          Number(tolerance),
        ),
      ),
  ],
]
