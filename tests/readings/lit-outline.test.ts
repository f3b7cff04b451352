import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { arrivalsAt, type MeterScene } from '../../src/meter'
import { litOutline } from '../../src/readings'
import type { Source } from '../../src/sitting'
import { addScaled, distance, dot, normalize, subtract } from '../../src/space'
import { inputOf, lamp, setOf } from './set'

const sceneOf = (source: Source): MeterScene => {
  const { rig, bodies, caster } = inputOf(setOf([source]))
  return { rig, bodies: bodies!, caster }
}
const box = { ...defaultModifier('softbox'), widthM: 0.8, heightM: 0.8 }

/** The other route: the meter's own pieces of the source, by their light and not by their number. */
test('along the line half of the light is hidden, as the meter has it', () => {
  const scene = sceneOf(lamp('A', { az: 40, el: 35, d: 1.3, modifier: box }))
  const lines = litOutline(scene)
  const places = lines.flatMap(({ points }) => points.filter((_, i) => i % 5 === 2))
  expect(places.length).toBeGreaterThan(40)
  const [source] = scene.rig.sources
  const lens = scene.rig.view.frame.origin
  const on = places.flatMap((p) => {
    const towards = normalize(subtract(p, lens))
    const { normal, distance: away, bodyIndex } = scene.caster.nearest(lens, towards)!
    const met = scene.bodies.meanings[bodyIndex]
    // Hair and a step back lie elsewhere than the line.
    if (met.kind !== 'figure' || met.part.name !== 'skin' || Math.abs(away - distance(lens, p)) > 0.002) return []
    const skin = addScaled(addScaled(lens, towards, away), normal, 5e-4)
    const pieces = arrivalsAt(scene, source, skin)
    const sum = (of: (piece: (typeof pieces)[number]) => number) => pieces.reduce((all, piece) => all + of(piece), 0)
    const over = ({ direction }: (typeof pieces)[number]) => (dot(direction, normal) > 0 ? 1 : 0)
    return [sum((piece) => piece.strength * piece.visible * over(piece)) / sum(({ strength }) => strength)]
  })
  expect(on.length).toBeGreaterThan(0.7 * places.length)
  on.sort((one, other) => one - other)
  const at = (share: number) => on[Math.floor(share * on.length)]
  expect(Math.abs(at(0.5) - 0.5)).toBeLessThan(0.08)
  expect(at(0.2)).toBeGreaterThan(0.3)
  expect(at(0.8)).toBeLessThan(0.7)
})

test('the edge of the triangle is told apart where the pattern has one, on the far cheek', () => {
  const marked = (az: number, el: number) => {
    const scene = sceneOf(lamp('A', { az, el, d: 1.5 }))
    return { scene, points: litOutline(scene).flatMap(({ triangle, points }) => (triangle ? points : [])) }
  }
  for (const sign of [1, -1]) {
    const { scene, points } = marked(sign * 52, 42)
    const { eyeMidpoint, landmarks } = scene.rig.figures[0].posed
    expect(points.length).toBeGreaterThan(20)
    for (const [x, y] of points) {
      expect(x * sign).toBeLessThan(0)
      expect(y).toBeLessThan(eyeMidpoint[1] + 0.012)
      expect(y).toBeGreaterThan(landmarks.mouthLeft.position[1] - 0.005)
    }
    // A triangle no broader than the eye with its lids, no longer than the nose (common practice, no source), and no spark.
    const across = (axis: 0 | 1) => Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]))
    expect(across(0)).toBeLessThan(0.05)
    expect(across(1)).toBeLessThan(0.065)
    expect(Math.min(across(0), across(1))).toBeGreaterThan(0.02)
  }
  expect(marked(30, 35).points).toEqual([])
})

test('a mirrored light draws the mirrored outline; no source, none', () => {
  const of = (az: number) => litOutline(sceneOf(lamp('A', { az, el: 35, d: 1.5 }))).flatMap(({ points }) => points)
  const [right, left] = [of(45), of(-45)]
  expect(right.length).toBeGreaterThan(100)
  const gaps = right.map(([x, y, z]) => Math.min(...left.map((p) => distance([-x, y, z], p)))).sort((a, b) => a - b)
  // The hair is not mirrored; the face is.
  expect(gaps[Math.floor(0.75 * gaps.length)]).toBeLessThan(0.002)
  expect(litOutline(sceneOf({ ...lamp('A'), on: false }))).toEqual([])
})
