import { expect, test } from 'vitest'
import { distance, type Vec3 } from '../../src/space'
import { eyeAt, keyed, nearer, orbitOf, START, turned } from '../../src/ui/walk/orbit'

const AT: Vec3 = [0.1, 1.1, -0.2]
const from = (roundDeg: number, upDeg: number) => eyeAt({ roundDeg, upDeg, awayM: 4 }, AT).map((v, i) => v - AT[i]!)

test('0° is the camera’s side, 90° camera right, 90° up over the sitter; always as far off', () => {
  for (const [round, up, where] of [
    [0, 0, [0, 0, 4]],
    [90, 0, [4, 0, 0]],
    [180, 0, [0, 0, -4]],
    [30, 90, [0, 4, 0]],
  ] as const)
    from(round, up).forEach((value, axis) => {
      expect(value).toBeCloseTo(where[axis]!, 9)
    })
  expect(distance(eyeAt(START, AT), AT)).toBeCloseTo(START.awayM, 9)
})

test('keys go round without end, up to above and down to the floor, nearer and back; other keys are not ours', () => {
  expect(keyed({ ...START, roundDeg: 178 }, 'ArrowRight')!.roundDeg).toBe(-177)
  expect(turned(START, 0, 500).upDeg).toBe(89)
  expect(turned(START, 0, -500).upDeg).toBe(-5)
  expect(keyed(keyed(START, '+')!, '-')!.awayM).toBeCloseTo(START.awayM, 9)
  expect(nearer(START, 1e6).awayM).toBe(0.8)
  expect(keyed(START, 'a')).toBeNull()
})

test('an eye put by an orbit is told by it again', () => {
  for (const orbit of [START, { roundDeg: 170, upDeg: 60, awayM: 2 }, { roundDeg: 0, upDeg: -5, awayM: 0.8 }]) {
    const told = orbitOf(eyeAt(orbit, AT), AT)
    expect(told.roundDeg).toBeCloseTo(orbit.roundDeg, 9)
    expect(told.upDeg).toBeCloseTo(orbit.upDeg, 9)
    expect(told.awayM).toBeCloseTo(orbit.awayM, 9)
  }
})
