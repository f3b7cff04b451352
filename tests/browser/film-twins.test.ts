import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { underFilm } from '../../src/photometry'
import { add, dot, hash32, normalize, scale, type Vec3 } from '../../src/space'
import { CASES, expectClose, onGpu } from './shader-values'

/** The film on skin as the picture has it, against its TypeScript twin on the same random inputs. Floats: 1e-4 of the value. */
const SNIPPET = `${readFileSync('src/render/shaders/film.glsl', 'utf8')}
float passed(Film film, float cosIn, float cosOut) {
  return filmPass(film, cosIn) * filmPass(film, cosOut) / filmPassDiffuse(film);
}`

let counter = 0
const random = (low: number, high: number) => Math.fround(low + ((high - low) * hash32(counter++, 91)) / 2 ** 32)
const unit = (): Vec3 => normalize([random(-1, 1), random(-1, 1), random(-1, 1)])
const single = (v: Vec3): Vec3 => v.map(Math.fround) as unknown as Vec3

const cases = Array.from({ length: CASES }, () => {
  const normal = single(unit())
  const aside = () => single(normalize(add(normal, scale(unit(), 0.95))))
  return { normal, towards: aside(), toEye: aside(), roughness: random(0.1, 0.6), f0: random(0.02, 0.05) }
})
const asked = (film: string) =>
  onGpu(
    SNIPPET,
    `passed(${film}, dot(in0.xyz, in2.xyz), dot(in0.xyz, in1.xyz))`,
    cases.map(({ normal, towards, toEye, roughness, f0 }) => [...normal, roughness, ...toEye, f0, ...towards, 0]),
  )

test('film on a body = underFilm, π over its albedo', async () => {
  const twin = ({ normal, towards, toEye, roughness, f0 }: (typeof cases)[number]) =>
    underFilm(Math.PI, f0, roughness, dot(normal, towards), dot(normal, toEye))
  expectClose(await asked('filmOf(in1.w, in0.w)'), cases.map(twin), (i) => JSON.stringify(cases[i]))
})

test('all passes where there is none', async () => {
  expect(new Set(await asked('NO_FILM'))).toEqual(new Set([1]))
})
