import { expect, test } from 'vitest'
import { earHollow } from '../../src/figure/sculpt/ear'
import { partOf } from './sculpture'

/** The bowl before the ear canal is the deepest hollow, the rim round the ear the farthest from the head: anatomy, common knowledge, no source. */
test('the bowl of an ear lies in its hollows, its rim, lobe and the face do not', () => {
  const { positions } = partOf('skin').mesh
  const places = Array.from({ length: positions.length / 3 }, (_, v) =>
    [0, 1, 2].map((k) => positions[v * 3 + k] * 1000),
  )
  const hollow = ([x, y, z]: number[]) => earHollow(Math.abs(x), y, z)
  const left = places.filter(([x]) => x > 0)
  const of = (most: (place: number[]) => number) => left.reduce((a, b) => (most(b) > most(a) ? b : a))
  const [x, y, z] = of(hollow)
  expect(hollow([x, y, z])).toBeGreaterThan(0.9)
  // Within a centimetre and a half of the tragus, whose landmark lies at 72, −17, −72.
  expect(Math.hypot(x - 72, y + 17, z + 72)).toBeLessThan(15)
  expect(hollow(of(([px, py]) => (Math.abs(py) < 45 ? px : 0)))).toBeLessThan(0.05)
  for (const place of left.filter(([, , pz]) => pz > -60)) expect(hollow(place)).toBe(0)
  const share = (is: (place: number[]) => boolean) => left.filter(is).length / left.length
  expect(share((place) => hollow(place) > 0.3)).toBeLessThan(0.08)
})
