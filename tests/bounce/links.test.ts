import { describe, expect, test } from 'vitest'
import { type ListQuality, SETTLED_LISTS, TURNING } from '../../src/bounce'
import { layOut } from '../../src/bounce/layout'
import { patchFactor } from '../../src/bounce/links'
import { bounceScene } from '../../src/bounce/scene'
import { createRayCaster } from '../../src/rays'
import type { Rig, Surface } from '../../src/rig'
import { addScaled, dot, normalize, pointToWorld, type RayCaster, subtract, type Vec3 } from '../../src/space'
import { ballFigure, board, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

const RHO = 0.85
const BALL = { centre: [0, 1.2, 0] as Vec3, radiusM: 0.12 }
const lamp = discLamp([0.9, 1.6, 0.6], [0, 1.2, 0])
const PANEL = board('panel', [-0.5, 1.2, 0], [0, 1.2, 0], 0.8, 1.2, matt(RHO))
/** Black, between panel and ball: its shadow's edge crosses both. */
const CARD: Surface = { ...board('card', [-0.25, 1.3, 0], [0, 1.3, 0], 0.15, 0.15, matt(0)), kind: 'card' }

/** Everything black but the panel, so what it gives the ball is one reflection of the lamp: a double integral. */
const dark = (...more: readonly Surface[]): Rig =>
  rigOf([lamp], [PANEL, ...more], [ballFigure(BALL.centre, BALL.radiusM, 0)])

/** The figure's vertices as places a millimetre off the ball, with their normals. */
function placesOf(rig: Rig): readonly { point: Vec3; normal: Vec3 }[] {
  const { positions: p, normals: n } = rig.figures[0].posed.parts[0].mesh
  return Array.from({ length: p.length / 3 }, (_, v) => {
    const normal: Vec3 = [n[3 * v], n[3 * v + 1], n[3 * v + 2]]
    return { normal, point: addScaled([p[3 * v], p[3 * v + 1], p[3 * v + 2]], normal, 1e-3) }
  })
}

/** ∫ cos·cos/r² between a place and places evenly spread over an area, visible or nothing. */
function integral(at: Vec3, n: Vec3, others: readonly Lit[], caster: RayCaster): number {
  return others.reduce((sum, { point, normal, strength }) => {
    const way = subtract(point, at)
    const squared = dot(way, way)
    const cosines = (dot(n, way) * -dot(normal, way)) / squared
    if (dot(n, way) <= 0 || dot(normal, way) >= 0 || !caster.visible(at, point)) return sum
    return sum + (strength * cosines) / squared
  }, 0)
}

/** strength: luminance × area. */
interface Lit {
  readonly point: Vec3
  readonly normal: Vec3
  readonly strength: number
}

/** The lamp's disc in 8 × 8 and the panel in 48 × 72 midpoints; shares with the links the ray caster only. */
function litPanel(caster: RayCaster): readonly Lit[] {
  const { frame, emission } = lamp.emitters[0]
  const lit = Array.from({ length: 64 }, (_, i) => {
    const point = emission.at(((i % 8) + 0.5) / 8, (Math.floor(i / 8) + 0.5) / 8)
    const strength = (emission.luminance(point, [0, 0, 1]) * point.areaM2) / 64
    return { point: pointToWorld(frame, point.point), normal: frame.z, strength }
  })
  const [columns, rows] = [48, 72]
  const { centre, halfU, halfV } = PANEL.rect
  const normal: Vec3 = normalize(subtract(BALL.centre, centre))
  return Array.from({ length: columns * rows }, (_, i) => {
    const u = (2 * ((i % columns) + 0.5)) / columns - 1
    const v = (2 * (Math.floor(i / columns) + 0.5)) / rows - 1
    const point = addScaled(addScaled(addScaled(centre, halfU, u), halfV, v), normal, 1e-4)
    const irradiance = integral(point, normal, lit, caster)
    return { point, normal, strength: (RHO / Math.PI) * irradiance * ((0.8 * 1.2) / (columns * rows)) }
  })
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0)

describe.each([
  ['nothing between', [], 0.005],
  ['a card between', [CARD], 0.015],
] as const)('links to a matt panel against the double integral over lamp and panel, %s', (_, between, noise) => {
  const rig = dark(...between)
  const caster = createRayCaster(bounceScene(rig).bodies)
  const panel = litPanel(caster)
  const truth = placesOf(rig).map(({ point, normal }) => integral(point, normal, panel, caster))
  const green = (lists: ListQuality): readonly number[] =>
    [...bounceOf(rig, lists).solve(lamp).vertices].filter((_, k) => k % 3 === 1)

  test.each([
    ['settled', SETTLED_LISTS, 1],
    ['turning', TURNING, 2],
  ] as const)('%s: sum within 2 %, RMSE within the given share of the brightest', (_, lists, coarser) => {
    const linked = green(lists)
    const rmse = Math.sqrt(sumOf(linked.map((e, v) => (e - truth[v]) ** 2)) / truth.length)
    const brightest = Math.max(...truth)
    expect(Math.abs(sumOf(linked) / sumOf(truth) - 1)).toBeLessThan(0.02)
    expect(rmse / brightest).toBeLessThan(coarser * noise)
  })
})

test('a matt panel throws no points', () => {
  const rig = dark()
  expect(bounceOf(rig, TURNING).solve(lamp).points).toEqual([])
})

// What covers the whole hemisphere has factor 1 [Nusselt's projected unit circle]. The nearest patch is 2 cm away.
test('patches of a closed box, seen from a slanted place within it: factors add up to 1 ± 0.003', () => {
  const at = { point: [0, 0.02, 0] as Vec3, normal: normalize([0.3, 1, 0.2]) }
  const walls = room([2, 2, 2], () => matt(0.5)).map((surface) => ({ ...surface, kind: 'panel' as const }))
  const rig = rigOf([], walls)
  const scene = bounceScene(rig)
  const { elements } = layOut(scene, createRayCaster(scene.bodies))
  const sum = sumOf(elements.map((element) => (element.kind === 'patch' ? patchFactor(at, element) : 0)))
  expect(Math.abs(sum - 1)).toBeLessThan(0.003)
})
