import { readFileSync } from 'node:fs'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { underFilm } from '../../src/photometry'
import { add, dot, hash32, normalize, scale, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu, openGpu } from './shader-values'

/** The film on skin as the picture has it, against its TypeScript twin on the same random inputs. Floats: 1e-4 of the value. */
const part = (file: string, pattern: RegExp) => readFileSync(`src/render/shaders/${file}`, 'utf8').match(pattern)![0]
const SNIPPET = `${part('seen.glsl', /struct Seen \{[^}]*\};/)}
${part('shade.frag.glsl', /float filmPass\([\s\S]*?float filmPassDiffuse\([\s\S]*?\n\}/)}
Seen skin(vec3 normal, vec3 toEye, float roughness, float f0, bool isEye) {
  Seen seen;
  seen.normal = normal;
  seen.flatNormal = normal;
  seen.toEye = toEye;
  seen.coat = vec4(vec3(0.0), roughness);
  seen.f0 = f0;
  seen.isEye = isEye;
  return seen;
}
float film(Seen seen, vec3 towards) {
  return entersFilm(seen, towards) * leavesFilm(seen) / filmPassDiffuse(seen);
}`

let browser: Browser
beforeAll(async () => {
  browser = await openGpu()
})
afterAll(() => browser.close())

let counter = 0
const random = (low: number, high: number) => Math.fround(low + ((high - low) * hash32(counter++, 91)) / 2 ** 32)
const unit = (): Vec3 => normalize([random(-1, 1), random(-1, 1), random(-1, 1)])
const single = (v: Vec3): Vec3 => v.map(Math.fround) as unknown as Vec3

const cases = Array.from({ length: CASES }, () => {
  const normal = single(unit())
  const aside = () => single(normalize(add(normal, scale(unit(), 0.95))))
  return { normal, towards: aside(), toEye: aside(), roughness: random(0.1, 0.6), f0: random(0.02, 0.05) }
})
const asked = (sign: number, isEye: boolean) =>
  onGpu(
    browser,
    SNIPPET,
    `film(skin(in0.xyz, in1.xyz, ${sign.toFixed(1)} * in0.w, in1.w, ${isEye}), in2.xyz)`,
    cases.map(({ normal, towards, toEye, roughness, f0 }) => [...normal, roughness, ...toEye, f0, ...towards, 0]),
  )

test('film on a body = underFilm, π over its albedo', async () => {
  const twin = ({ normal, towards, toEye, roughness, f0 }: (typeof cases)[number]) =>
    underFilm(Math.PI, f0, roughness, dot(normal, towards), dot(normal, toEye))
  expectClose(await asked(1, false), cases.map(twin), (i) => JSON.stringify(cases[i]))
})

test('none on what is matt, on metal, on an eye', async () => {
  for (const [sign, isEye] of [
    [0, false],
    [-1, false],
    [1, true],
  ] as const)
    expect(new Set(await asked(sign, isEye))).toEqual(new Set([1]))
})
