import { expect, test } from 'vitest'
import { type LandmarkName, type Pose, type PosedFigure, poseFigure } from '../../src/figure'
import { distance, radians, type Vec3 } from '../../src/space'
import { expectSamePosed } from './same-posed'
import { asset } from './sculpture'

const REST: Pose = { positionM: [0, 0, 0], eyeHeightM: 1.2, bodyTurnDeg: 0, headTurnDeg: 0, headTiltDeg: 0, chinDeg: 0 }
const posed = (change: Partial<Pose>): PosedFigure => poseFigure(asset, { ...REST, ...change })
const at = (figure: PosedFigure, name: LandmarkName): Vec3 => figure.landmarks[name].position

/** Eyes over the seat: mean of the means of women and men, ANSUR II 2012 (check-values, ANT-A2-eyeheightsitting). */
const EYES_OVER_SEAT = (0.747687 + 0.804513) / 2
/** Where the trunk and the head meet: the head's pivot, 35 mm under the eyes and 75 mm behind them. */
const PIVOT: Vec3 = [0, 1.2 - 0.035, -0.075]

test('10 cm forward: the head goes 10 cm forward, a little down, and is held as it was', () => {
  const [rest, figure] = [posed({}), posed({ lean: { forwardM: 0.1, asideM: 0 } })]
  expect(figure.noseDirection[2]).toBeCloseTo(1, 9)
  expect(figure.headUp[1]).toBeCloseTo(1, 9)
  const by = figure.eyeMidpoint.map((v, k) => v - rest.eyeMidpoint[k])
  expect(by[0]).toBeCloseTo(0, 9)
  expect(by[2]).toBeCloseTo(0.1, 9)
  // A circle about the seat: 0.741 m of trunk that stands 15 mm before the seat, by Pythagoras.
  const up = EYES_OVER_SEAT - 0.035
  const before = 0.015
  expect(by[1]).toBeCloseTo(Math.sqrt(up ** 2 + before ** 2 - (before + 0.1) ** 2) - up, 4)
  expect(by[1]).toBeLessThan(-0.005)
  // Every place of the head goes with it.
  for (const name of Object.keys(asset.landmarks) as LandmarkName[])
    if (asset.landmarks[name].headWeight === 1)
      for (let k = 0; k < 3; k++) expect(at(figure, name)[k] - at(rest, name)[k]).toBeCloseTo(by[k], 6)
})

test('the trunk turns about the seat and stays in one piece', () => {
  const figure = posed({ lean: { forwardM: 0.1, asideM: 0.05 } })
  const rest = posed({})
  const seat: Vec3 = [0, 1.2 - EYES_OVER_SEAT, -0.09]
  for (const name of ['shoulderLeft', 'shoulderRight', 'sternalNotch'] as const)
    expect(distance(at(figure, name), seat)).toBeCloseTo(distance(at(rest, name), seat), 5)
  expect(distance(at(figure, 'shoulderLeft'), at(figure, 'shoulderRight'))).toBeCloseTo(
    distance(at(rest, 'shoulderLeft'), at(rest, 'shoulderRight')),
    9,
  )
  const pivot = PIVOT.map((v, k) => v + figure.eyeMidpoint[k] - rest.eyeMidpoint[k]) as unknown as Vec3
  expect(distance(pivot, seat)).toBeCloseTo(distance(PIVOT, seat), 5)
})

test('forward is where the body faces, aside its own left, whatever the head does', () => {
  const turned = { bodyTurnDeg: 30, headTurnDeg: -10, chinDeg: 5 }
  const rest = posed(turned)
  const [s, c] = [Math.sin(radians(30)), Math.cos(radians(30))]
  for (const [lean, x, z] of [
    [{ forwardM: 0.1, asideM: 0 }, 0.1 * s, 0.1 * c],
    [{ forwardM: 0, asideM: 0.08 }, 0.08 * c, -0.08 * s],
    [{ forwardM: -0.06, asideM: -0.06 }, -0.06 * (s + c), -0.06 * (c - s)],
  ] as const) {
    const figure = posed({ ...turned, lean })
    expect(figure.eyeMidpoint[0] - rest.eyeMidpoint[0]).toBeCloseTo(x, 9)
    expect(figure.eyeMidpoint[2] - rest.eyeMidpoint[2]).toBeCloseTo(z, 9)
    for (let k = 0; k < 3; k++) expect(figure.noseDirection[k]).toBeCloseTo(rest.noseDirection[k], 9)
  }
})

test('no lean is no lean: the same numbers as one that is left out', () => {
  expectSamePosed(posed({ headTurnDeg: 20, lean: { forwardM: 0, asideM: 0 } }), posed({ headTurnDeg: 20 }))
})
