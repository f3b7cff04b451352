import { expect, test } from 'vitest'
import type { SeenRoom } from '../../src/readings'
import { tonesOf } from '../../src/ui/looks/tones'

const SIDE = 16
const inside = (cell: number) => Math.hypot((cell % SIDE) - 7.5, Math.floor(cell / SIDE) - 7.5) < 8
const room = (luminance: number): SeenRoom => ({
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  side: SIDE,
  thing: Int16Array.from({ length: SIDE * SIDE }, (_, cell) => (inside(cell) ? 0 : -1)),
  luminance: Float32Array.from({ length: SIDE * SIDE }, (_, cell) => (inside(cell) ? luminance : 0)),
  things: [],
})

test('an 18 % card in metered light has the tone that it has in the picture: 118, and half a stop of gain lifts it', () => {
  // N² = E·S/C [ISO 2720, C = 250]: at f/8 and ISO 100 metered light is 160 lx·s, and a matt card sends 0.18·160/π.
  const card = room((0.18 * 160) / Math.PI)
  const tone = (factorStops: number) => tonesOf(card, { factorStops, fNumber: 8, iso: 100 })[8 * SIDE + 8]
  // 18 % grey is code 118 in sRGB [IEC 61966-2-1].
  expect(tone(0)).toBe(118)
  expect(tone(0.5)).toBeGreaterThan(130)
  expect(tone(6)).toBe(255)
})

test('cells beyond the rim carry on the tone within it', () => {
  const tones = tonesOf(room((0.18 * 160) / Math.PI), { factorStops: 0, fNumber: 8, iso: 100 })
  expect(new Set(tones)).toEqual(new Set([118]))
})
