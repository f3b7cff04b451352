import { expect, test } from 'vitest'
import { directionThrough } from '../../src/camera'
import { CORNEA_CENTRE_MM, CORNEA_RADIUS_MM, meetLens, outlineLevel } from '../../src/figure'
import { defaultModifier, type Modifier } from '../../src/gear'
import { directAt } from '../../src/meter'
import { INCIDENT_C, lensReflectance, luminanceFromSrgb, type Rgb } from '../../src/photometry'
import type { Rig, RigSource } from '../../src/rig'
import { type Sitting, setGaze, setGlasses } from '../../src/sitting'
import {
  addScaled,
  cross,
  directionToLocal,
  dot,
  normalize,
  pointToLocal,
  scale,
  subtract,
  type Vec3,
} from '../../src/space'
import { EYE_M, lamp, setOf } from '../readings/set'
import { agreementPage, TIMEOUT_MS } from './agreement-bench'
import { meterScene, pixelsOf, rigOfText } from './agreement-routes'

/**
 * A catchlight has the shape of its source. Each pixel of a close picture of an eye is mirrored here in the ball of the cornea (law of
 * reflection) and followed to the plane of the lit face, whose shape is written anew below; the picture must be bright
 * where that meets it and nowhere else.
 */
const SIZE = 96
/** Across the picture, m. */
const FIELD = 0.009
const LENS: Vec3 = [0, EYE_M, 2.2]
const [FOCAL_MM, SENSOR_MM] = [1000, (FIELD / 2.2) * 1000]
const open = agreementPage()

type Inside = (x: number, y: number) => boolean
const rectangle: Inside = (x, y) => Math.abs(x) < 0.3 && Math.abs(y) < 0.45
const octagon: Inside = (x, y) => Math.max(Math.abs(x), Math.abs(y), (Math.abs(x) + Math.abs(y)) / Math.SQRT2) < 0.45
const round: Inside = (x, y) => Math.hypot(x, y) < 0.475

const sittingOf = (modifier: Modifier) => closeTo(setOf([lamp('A', { az: 25, el: 20, d: 1.2, modifier })]))

/** The same set through a long lens at the left eye, which looks into it. */
function closeTo(base: Sitting) {
  const set = setGaze(
    { ...base, camera: { ...base.camera, positionM: LENS, aimM: [0, EYE_M, 0], focalLengthMm: FOCAL_MM } },
    'sitter',
    'camera',
  )
  const { pupilLeft } = rigOfText(JSON.stringify(set)).figures[0]!.posed.landmarks
  const camera = { ...set.camera, aimM: pupilLeft.position, sensorWidthMm: SENSOR_MM, sensorHeightMm: SENSOR_MM }
  return { ...set, camera }
}

/** Where the look through a pixel goes once it is mirrored in the cornea; null: it misses the ball. */
function mirrored(
  { view, figures }: Rig,
  i: number,
): { readonly from: Vec3; readonly seen: Vec3; readonly way: Vec3; readonly offMm: number } | null {
  const { eyeCentreLeft, pupilLeft } = figures[0]!.posed.landmarks
  const sight = normalize(subtract(pupilLeft.position, eyeCentreLeft.position))
  const centre = addScaled(eyeCentreLeft.position, sight, CORNEA_CENTRE_MM / 1000)
  const [column, row] = [i % SIZE, Math.floor(i / SIZE)]
  const way = directionThrough((2 * (column + 0.5)) / SIZE - 1, 1 - (2 * (row + 0.5)) / SIZE, view.frame, view)
  const start = subtract(view.frame.origin, centre)
  const along = dot(start, way)
  const root = along * along - dot(start, start) + (CORNEA_RADIUS_MM / 1000) ** 2
  if (root < 0) return null
  const from = addScaled(view.frame.origin, way, -along - Math.sqrt(root))
  const normal = scale(subtract(from, centre), 1000 / CORNEA_RADIUS_MM)
  const offMm = 1000 * Math.sqrt(Math.max(0, dot(start, start) - along * along))
  return { from, seen: way, way: addScaled(way, normal, -2 * dot(way, normal)), offMm }
}

/** On the plane of the lit face, m. */
function meets({ frame }: RigSource, from: Vec3, way: Vec3): readonly [number, number] | null {
  const [p, d] = [pointToLocal(frame, from), directionToLocal(frame, way)]
  return d[2] < 0 ? [p[0] - (d[0] * p[2]) / d[2], p[1] - (d[1] * p[2]) / d[2]] : null
}

test.each<readonly [string, Modifier, Inside]>([
  ['a rectangle', { ...defaultModifier('softbox'), widthM: 0.6, heightM: 0.9 }, rectangle],
  ['an octagon', { ...defaultModifier('octa'), diameterM: 0.9 }, octagon],
  ['round, with the lamp dark in its middle', { ...defaultModifier('white-umbrella'), diameterM: 0.95 }, round],
])(
  '%s',
  async (_, modifier, inside) => {
    const sittingText = JSON.stringify(sittingOf(modifier))
    const rig = rigOfText(sittingText)
    const order = { set: { sittingText }, width: SIZE, height: SIZE, samples: 16, bounce: null, fNumber: 5.6 }
    const { linear } = await pixelsOf(open, order)
    const value = (i: number) => luminanceFromSrgb([0, 1, 2].map((band) => linear[4 * i + band]) as unknown as Rgb)
    const { caster, bodies } = meterScene(rig)
    const isEye = (way: Vec3) => {
      const met = bodies.meanings[caster.nearest(rig.view.frame.origin, way)!.bodyIndex]
      return met?.kind === 'figure' && met.part.name === 'eyeLeft'
    }
    const [lit, dark, middle]: [number[], number[], number[]] = [[], [], []]
    for (let i = 0; i < SIZE * SIZE; i++) {
      const look = mirrored(rig, i)
      // Well within the iris, where the ball is the cornea's and the ground dark, and what the lids leave of it.
      if (!look || look.offMm > 4.2 || !isEye(look.seen)) continue
      const place = meets(rig.sources[0]!, look.from, look.way)
      const isIn = (grown: number) => place !== null && inside(place[0] / grown, place[1] / grown)
      const isLamp = modifier.kind === 'white-umbrella' && place !== null && Math.hypot(...place) < 0.3
      if (isLamp) middle.push(value(i))
      else if (isIn(0.94)) lit.push(value(i))
      else if (!isIn(1.06)) dark.push(value(i))
    }
    const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
    const half = (mean(lit) + mean(dark)) / 2
    expect(lit.length).toBeGreaterThan(250)
    expect(dark.length).toBeGreaterThan(2000)
    expect(mean(lit)).toBeGreaterThan(2 * mean(dark))
    const wrong = lit.filter((v) => v < half).length + dark.filter((v) => v > half).length
    expect(wrong / (lit.length + dark.length)).toBeLessThan(0.01)
    // Of the part round the axis some is lamp and dark, and some is cloth.
    if (middle.length > 0) {
      expect(middle.filter((v) => v < half).length).toBeGreaterThan(0.1 * middle.length)
      expect(middle.filter((v) => v > half).length).toBeGreaterThan(0.2 * middle.length)
    }
  },
  TIMEOUT_MS,
)

/**
 * A white board shows too, though it is no lamp. In the pupil there is nothing else: what shows there is the board's luminance, by
 * Lambert's law from the meter's own light on it, times Fresnel's reflectance of the tear film.
 */
const WHITE_BOARD = 0.85
const COARSE = {
  lists: { patchRays: 16, vertexRays: 16, linkEdge: 2, eyeCells: 48 },
  solve: { directRays: 64, metalPoints: 0, grazedPoints: 0, gatherPoints: 0, leanRays: 16, leastChange: 1e-3 },
}

/** Where a look meets the board's plane, from its middle in half edges (Infinity: behind the look), and the value of a picture pixel of it there. */
function litBoard(rig: Rig) {
  const scene = meterScene(rig)
  const { centre, halfU, halfV } = rig.surfaces.find(({ id }) => id === 'board')!.rect
  const out = normalize(cross(halfU, halfV))
  const normal = dot(out, subtract(rig.figures[0]!.posed.eyeMidpoint, centre)) > 0 ? out : scale(out, -1)
  return (from: Vec3, way: Vec3) => {
    const t = dot(subtract(centre, from), normal) / dot(way, normal)
    const met = addScaled(from, way, t)
    const off = subtract(met, centre)
    const inside = Math.max(...[halfU, halfV].map((half) => Math.abs(dot(off, half) / dot(half, half))))
    const lux = directAt(scene, { point: addScaled(met, normal, 2e-4), normal }, 'disc').reduce(
      (sum, light) => sum + luminanceFromSrgb(light.rgb),
      0,
    )
    const edge = t > 0 ? inside : Number.POSITIVE_INFINITY
    return { edge, luminance: WHITE_BOARD * lux * (rig.view.iso / (INCIDENT_C * 5.6 ** 2)) }
  }
}

test(
  'a lit white board shows in the pupil where the mirror law has it, as bright as its light and Fresnel say',
  async () => {
    const side = { d: 1, el: 0 }
    const board = { kind: 'white', widthM: 0.5, heightM: 0.5, turnDeg: -160, tiltDeg: 0 } as const
    const centreM: Vec3 = [0.4, EYE_M, 1.1]
    const set = setOf([lamp('A', { ...side, az: 100, modifier: defaultModifier('bare-bulb'), aimM: centreM })])
    const sitting = closeTo({ ...set, panels: [{ ...board, id: 'board', centreM }] })
    const sittingText = JSON.stringify(sitting)
    const rig = rigOfText(sittingText)
    const order = {
      set: { sittingText },
      width: SIZE,
      height: SIZE,
      samples: 16,
      bounce: COARSE,
      fNumber: 5.6,
    }
    const { linear } = await pixelsOf(open, order)
    const lit = litBoard(rig)
    const [shares, beside]: [number[], number[]] = [[], []]
    for (let i = 0; i < SIZE * SIZE; i++) {
      const look = mirrored(rig, i)
      if (!look || look.offMm > 1.3) continue
      const { edge, luminance } = lit(look.from, look.way)
      const value = luminanceFromSrgb([0, 1, 2].map((band) => linear[4 * i + band]) as unknown as Rgb)
      const share = value / (fresnel(look) * luminance)
      // The map's cells soften the board's edge.
      if (edge < 0.75) shares.push(share)
      else if (edge > 1.3) beside.push(share)
    }
    expect(shares.length).toBeGreaterThan(50)
    expect(beside.length).toBeGreaterThan(300)
    expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) / shares.length - 1)).toBeLessThan(0.04)
    for (const share of shares) expect(Math.abs(share - 1)).toBeLessThan(0.12)
    for (const share of beside) expect(Math.abs(share)).toBeLessThan(0.02)
  },
  TIMEOUT_MS,
)

/** Of an unpolarised ray that meets the ball of the cornea, n 1.336. */
function fresnel({ seen, way }: { readonly seen: Vec3; readonly way: Vec3 }): number {
  const cos = Math.sqrt((1 - dot(seen, way)) / 2)
  const inside = Math.sqrt(1 - (1 - cos * cos) / 1.336 ** 2)
  const across = (cos - 1.336 * inside) / (cos + 1.336 * inside)
  const along = (inside - 1.336 * cos) / (inside + 1.336 * cos)
  return (across ** 2 + along ** 2) / 2
}

/**
 * And in lenses: a plain one mirrors more than a coated one by known shares (twice Fresnel's at n 1.5; 1 % coated), so their difference is that
 * share of how much brighter the board is than what lies behind the lens, which only the board's own light reaches.
 */
test(
  'the board shows in plain lenses where the mirror law has it, as bright as its light and two surfaces say',
  async () => {
    const [width, height] = [160, 64]
    const board = { id: 'board', kind: 'white', widthM: 0.5, heightM: 0.5, turnDeg: -167, tiltDeg: 0 } as const
    const centreM: Vec3 = [0.33, EYE_M, 1.1]
    const aside = { az: 130, el: 0, d: 1, modifier: defaultModifier('bare-bulb'), aimM: centreM }
    const picture = async (coated: boolean) => {
      const base = { ...setOf([lamp('A', aside)]), panels: [{ ...board, centreM }] }
      const camera = { ...base.camera, positionM: [0, EYE_M, 1.2] as Vec3, aimM: [0, EYE_M - 0.005, 0] as Vec3 }
      const close = { ...camera, sensorWidthMm: 36, sensorHeightMm: 14.4, focalLengthMm: 234 }
      const sittingText = JSON.stringify(setGlasses({ ...base, camera: close }, 'sitter', { coated }))
      const rig = rigOfText(sittingText)
      const order = { set: { sittingText }, width, height, samples: 16, bounce: COARSE, fNumber: 5.6 }
      return { rig, linear: (await pixelsOf(open, order)).linear }
    }
    const [plain, coated] = [await picture(false), await picture(true)]
    const { view, figures } = plain.rig
    const { left, right } = figures[0]!.posed.lenses!
    const lit = litBoard(plain.rig)
    const [shares, beside]: [number[], number[]] = [[], []]
    for (let i = 0; i < width * height; i++) {
      const across = (2 * ((i % width) + 0.5)) / width - 1
      const up = 1 - (2 * (Math.floor(i / width) + 0.5)) / height
      const way = directionThrough(across, up, view.frame, view)
      for (const lens of [left, right]) {
        const met = meetLens(lens, view.frame.origin, addScaled(view.frame.origin, way, 1.3))
        if (!met) continue
        const from = addScaled(view.frame.origin, way, 1.3 * met.share)
        const [x, y] = pointToLocal(lens.frame, from)
        if (outlineLevel(lens, x, y) > 0.6) continue
        const onwards = addScaled(way, met.normal, -2 * dot(way, met.normal))
        const incidence = Math.acos(Math.abs(dot(way, met.normal)))
        const more = lensReflectance(incidence, false) - lensReflectance(incidence, true)
        const value = ({ linear }: typeof plain) =>
          luminanceFromSrgb([0, 1, 2].map((k) => linear[4 * i + k]) as unknown as Rgb)
        const behind = value(coated)
        const { edge, luminance } = lit(from, onwards)
        const share = (value(plain) - behind) / (more * (luminance - behind))
        if (edge < 0.6) shares.push(share)
        else if (edge > 1.6 && behind > 0) beside.push((value(plain) - behind) / behind)
      }
    }
    expect(shares.length).toBeGreaterThan(50)
    expect(beside.length).toBeGreaterThan(500)
    expect(Math.abs(shares.reduce((sum, share) => sum + share, 0) / shares.length - 1)).toBeLessThan(0.04)
    for (const share of shares) expect(Math.abs(share - 1)).toBeLessThan(0.12)
    // A plain lens is the darker one where it mirrors nothing.
    for (const share of beside) expect(share).toBeLessThan(-0.06)
  },
  TIMEOUT_MS,
)
