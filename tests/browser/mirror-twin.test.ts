import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Mirror, mirrorMeets, reflectedPoint } from '../../src/rig'
import { cross, distance, dot, frameTowards, hash32, length, scale, type Vec3 } from '../../src/space'
import { CASES, onGpu } from './shader-values'

/**
 * over-mirror.glsl against rig/mirror.ts: whether light from a lit point passes the mirror's outline, and where, to 1e-5 m. Points
 * within a millimetre of its plane, or a share of 1e-4 of an edge, are left out: there a float may decide either way.
 */
const read = (name: string) => readFileSync(`src/render/shaders/${name}.glsl`, 'utf8')
const part = (text: string, pattern: RegExp) => text.match(pattern)![0]
const visibility = read('visibility')
const OVER = read('over-mirror').replace(/^uniform /gm, '')
const SNIPPET = `#define OVER_MIRROR
struct Seen { vec3 position, normal, flatNormal, toEye, strand, matt, facet; };
const float END_M = 2e-4;
${part(visibility, /float covered\([\s\S]*?\n\}/)}
${part(visibility, /float planeShare\([\s\S]*?\n\}/)}
${part(visibility, /float rectangleCovers\([\s\S]*?\n\}/)}
${OVER}
float asked(int what, vec3 x, vec3 p, vec3 centre, vec3 normal, vec4 u, vec4 v) {
  mirrorCentre = centre; mirrorNormal = normal; mirrorU = u; mirrorV = v;
  vec3 image = imageOf(x);
  return what < 3 ? mirrorMeets(image, p)[what] : mirrorPass(image, p, 0.0);
}`

let counter = 0
const random = (low: number, high: number) => Math.fround(low + ((high - low) * hash32(counter++, 31)) / 2 ** 32)
const vector = (size: number): Vec3 => [random(-size, size), random(-size, size), random(-size, size)]

const cases = Array.from({ length: CASES }, () => {
  const { origin: centre, x, y, z: normal } = frameTowards(vector(0.5), vector(2))
  const rect = { centre, halfU: scale(x, random(0.2, 1)), halfV: scale(y, random(0.2, 1)) }
  const mirror: Mirror = { surfaceId: '', rect, normal: cross(x, y), front: [1, 1, 1], back: [1, 1, 1] }
  return { mirror, normal, place: vector(1.5), lit: vector(1.5) }
})
type Case = (typeof cases)[number]

const half = (edge: Vec3) => [...scale(edge, 1 / dot(edge, edge)), length(edge)]
const ask = (what: number) =>
  onGpu(
    SNIPPET,
    `asked(${what}, in0.xyz, in1.xyz, in2.xyz, in3.xyz, in4, in5)`,
    cases.map(({ mirror: { rect, normal }, place, lit }) => [
      ...[...place, 0, ...lit, 0, ...rect.centre, 0, ...normal, 0],
      ...[...half(rect.halfU), ...half(rect.halfV)],
    ]),
  )

const grown = ({ mirror, place, lit }: Case, k: number) => {
  const { centre, halfU, halfV } = mirror.rect
  return mirrorMeets({ ...mirror, rect: { centre, halfU: scale(halfU, k), halfV: scale(halfV, k) } }, place, lit)
}

test('mirrorPass and mirrorMeets = mirrorMeets', async () => {
  const [passes, ...met] = [await ask(3), await ask(0), await ask(1), await ask(2)]
  let [compared, passed] = [0, 0]
  for (const [i, one] of cases.entries()) {
    const truth = mirrorMeets(one.mirror, one.place, one.lit)
    const isNear = [one.place, one.lit].some((at) => distance(at, reflectedPoint(one.mirror, at)) < 2e-3)
    if (isNear || (grown(one, 0.9999) === null) !== (grown(one, 1.0001) === null)) continue
    compared++
    expect(passes[i], JSON.stringify(one)).toBe(truth ? 1 : 0)
    if (!truth) continue
    passed++
    expect(distance(truth, [met[0][i], met[1][i], met[2][i]]), JSON.stringify(one)).toBeLessThan(1e-5)
  }
  expect(compared).toBeGreaterThan(0.98 * CASES)
  expect(passed).toBeGreaterThan(0.05 * CASES)
})
