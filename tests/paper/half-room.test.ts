import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, bouncePass, HalfRoom, noBounce } from '../../src/meter'
import { drawHalfRoom, type HalfRoomDrawing } from '../../src/paper'
import { contours, eased } from '../../src/paper/contours'
import { createRayCaster } from '../../src/rays'
import { type SeenRoom, seeingPlace, seeingProbe, seenRoom } from '../../src/readings'
import { createRigBuilder } from '../../src/rig'
import { firstSitting } from '../../src/sitting'

describe('contours', () => {
  const side = 40
  const disc = (radius: number, x = 19.5, y = 19.5) =>
    Float32Array.from({ length: side * side }, (_, cell) =>
      Math.min(1, Math.max(0, radius + 0.5 - Math.hypot((cell % side) - x, Math.floor(cell / side) - y))),
    )
  test('of a disc: one ring, as wide as the disc', () => {
    const rings = contours(disc(11.3), side)
    expect(rings).toHaveLength(1)
    const [ring] = rings
    expect(ring[0]).toEqual(ring.at(-1))
    for (const [x, y] of ring) expect(Math.abs(Math.hypot(x - 19.5, y - 19.5) - 11.3)).toBeLessThan(0.1)
    for (const [x, y] of eased(ring)) expect(Math.abs(Math.hypot(x - 19.5, y - 19.5) - 11.3)).toBeLessThan(0.2)
  })
  test('of a ring two, of two discs two, of a half plane one line from edge to edge, of nothing none', () => {
    const [outer, inner] = [disc(12), disc(5)]
    expect(
      contours(
        outer.map((value, i) => value - inner[i]),
        side,
      ),
    ).toHaveLength(2)
    const [a, b] = [disc(5, 8, 8), disc(6, 28, 30)]
    expect(
      contours(
        a.map((value, i) => value + b[i]),
        side,
      ),
    ).toHaveLength(2)
    const half = contours(
      Float32Array.from({ length: side * side }, (_, cell) => (cell % side > 20 ? 1 : 0)),
      side,
    )
    expect(half).toHaveLength(1)
    expect(half[0].every(([x]) => x === 20.5)).toBe(true)
    expect(Math.abs(half[0][0][1] - half[0].at(-1)![1])).toBe(side - 1)
    expect(contours(new Float32Array(side * side), side)).toEqual([])
  })
})

describe('the half-room of the far cheek, beside the nose', () => {
  const sitting = firstSitting()
  const PLACE = 'noseShadowCheekRight'
  let room: SeenRoom
  let drawing: HalfRoomDrawing
  beforeAll(() => {
    const rig = createRigBuilder({ figure: readFigureAsset(readFileSync('assets/sitter.glb')) })(sitting)
    const bodies = bodiesOf(rig)
    const scene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
    const looked = new HalfRoom(scene, seeingProbe(sitting, rig, PLACE))
    const ended = <T>(steps: Generator<unknown, T>): T => {
      for (;;) {
        const step = steps.next()
        if (step.done) return step.value
      }
    }
    const grid = ended(looked.grid(64))
    room = seenRoom(grid, ended(bouncePass(looked, grid, noBounce(grid), 0)))
    drawing = drawHalfRoom({ sitting, rig, room, place: seeingPlace(sitting, rig, PLACE).name })
  })
  const words = () => drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []))
  const at = (name: string) => {
    const found = words().find(({ text }) => text === name)
    if (!found) throw new Error(`no ${name} among ${words().map(({ text }) => text)}`)
    return found.at
  }

  test('what is seen has its name, the nose that stands in the way too', () => {
    for (const name of ['A', 'white panel', 'nose', 'ceiling', 'floor', 'wall']) expect(at(name)).toBeDefined()
  })

  test('every name lies on what it names', () => {
    const thingAt = ([x, y]: readonly [number, number]) =>
      room.things[room.thing[Math.floor(((y + 1) / 2) * 64) * 64 + Math.floor(((1 - x) / 2) * 64)]]
    expect(thingAt(at('A'))).toMatchObject({ kind: 'source', id: 'key' })
    expect(thingAt(at('white panel'))).toMatchObject({ kind: 'surface', id: 'panel' })
    expect(thingAt(at('floor'))).toMatchObject({ id: 'room.floor' })
  })

  test('as a mirror shows it: up is up, the key at camera right on the right, the panel at camera left on the left', () => {
    expect(at('ceiling')[1]).toBeLessThan(at('floor')[1])
    expect(at('A')[0]).toBeGreaterThan(0)
    expect(at('white panel')[0]).toBeLessThan(0)
    expect(at('camera left')[0]).toBeLessThan(at('camera right')[0])
  })

  test('all lines lie in the disc, whose rim is drawn', () => {
    const rim = drawing.shapes.find(({ kind }) => kind === 'circle')
    expect(rim).toMatchObject({ centre: [0, 0], radiusM: 1 })
    const points = drawing.shapes.flatMap((shape) => (shape.kind === 'line' ? shape.points : []))
    expect(points.length).toBeGreaterThan(200)
    for (const p of points) expect(Math.hypot(...p)).toBeLessThanOrEqual(1)
  })

  test('shares in words, in the drawing’s own description too', () => {
    expect(drawing.shares.map(({ name }) => name).slice(0, 3)).toEqual(['A', 'white panel', 'room'])
    const sum = drawing.shares.reduce((all, { percent }) => all + Number.parseInt(percent, 10), 0)
    expect(Math.abs(sum - 100)).toBeLessThanOrEqual(2)
    expect(drawing.description).toMatch(
      /^What the cheek beside the nose, camera left sees .*Light by where it comes from: A \d+ %, white panel \d+ %, room \d+ %/,
    )
  })
})
