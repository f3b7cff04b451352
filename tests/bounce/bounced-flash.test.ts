import { expect, test } from 'vitest'
import { SETTLED, SETTLED_LISTS } from '../../src/bounce'
import { buildModifier, defaultModifier } from '../../src/gear'
import type { Surface } from '../../src/rig'
import { frameTowards, type Vec3 } from '../../src/space'
import { BOUNCED, BOUNCED_RHO, BOUNCED_ROOM, FLASH_AT, FLASH_EXPONENT, reflectedBy } from './board-quadrature'
import { ballFigure, bounceOf, discLamp, matt, rigOf, room } from './fixtures'

/** Dimmer than this share of the brightest vertex a list of rays says little. */
const LEAST = 0.2

/** The picture's route to a flash that is turned away: what the sitter's vertices get against the double integral over the boards. */
test.each(BOUNCED)(
  'flash turned to the $name: mean within 2 %, each vertex within 10 %',
  ({ aim, boards, surface }) => {
    const white = matt(BOUNCED_RHO)
    const walls = room(BOUNCED_ROOM, (name) => (name === surface ? white : matt(0)))
    const panels = boards.map((rect, i): Surface => ({ id: `${i}`, kind: 'panel', rect, front: white, back: white }))
    const lamp = discLamp(FLASH_AT, aim, { radiusM: 0.025 })
    const [{ emission }] = buildModifier(defaultModifier('on-camera-flash')).emitters
    const flash = { ...lamp, emitters: [{ ...lamp.emitters[0], frame: frameTowards(FLASH_AT, aim), emission }] }
    const ball = ballFigure([0, 1.2, 0], 0.1, 0)
    const bounce = bounceOf(rigOf([flash], surface ? walls : [...walls, ...panels], [ball]), SETTLED_LISTS)
    const { vertices } = bounce.solve(flash, SETTLED)
    const { positions, normals } = ball.posed.parts[0].mesh
    const reflected = reflectedBy({ at: FLASH_AT, aim, exponent: FLASH_EXPONENT }, boards, BOUNCED_RHO)
    const at = (values: Float32Array, v: number): Vec3 => [values[3 * v], values[3 * v + 1], values[3 * v + 2]]
    const expected = Array.from({ length: positions.length / 3 }, (_, v) =>
      reflected({ point: at(positions, v), normal: at(normals, v) }),
    )
    const bright = expected.flatMap((e, v) => (e > LEAST * Math.max(...expected) ? [v] : []))
    const sum = (value: (v: number) => number) => bright.reduce((total, v) => total + value(v), 0)
    expect(bright.length).toBeGreaterThan(20)
    expect(Math.abs(sum((v) => vertices[3 * v + 1]) / sum((v) => expected[v]) - 1)).toBeLessThan(0.02)
    expect(Math.max(...bright.map((v) => Math.abs(vertices[3 * v + 1] / expected[v] - 1)))).toBeLessThan(0.1)
  },
)
