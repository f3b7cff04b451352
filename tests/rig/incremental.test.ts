import fc from 'fast-check'
import { expect, test } from 'vitest'
import { assembleRig, createRigBuilder } from '../../src/rig'
import * as edit from '../../src/sitting'
import { firstSitting, type Sitting } from '../../src/sitting'
import { STAND_IN } from './stand-in'

const assets = { figure: STAND_IN }
const point = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0.1, max: 2, noNaN: true }))) as fc.Arbitrary<
  [number, number, number]
>

/** One edit, aimed at the first or last thing of its list. */
const edits: fc.Arbitrary<(s: Sitting) => Sitting> = fc.oneof(
  point.map((p) => (s: Sitting) => (s.sources.length ? edit.moveSource(s, s.sources[s.sources.length - 1].id, p) : s)),
  fc
    .constantFrom('dish', 'silver-umbrella', 'wide-dish')
    .map((kind) => (s: Sitting) => (s.sources.length ? edit.swapModifier(s, s.sources[0].id, kind) : s)),
  fc.constant((s: Sitting) => (s.sources.length < 4 ? edit.addSource(s, { role: 'hair' }).sitting : s)),
  fc.constant((s: Sitting) => (s.sources.length ? edit.removeThing(s, s.sources[0].id) : s)),
  point.map((p) => (s: Sitting) => (s.panels.length ? edit.movePanel(s, s.panels[0].id, p) : s)),
  fc.constantFrom('white', 'gold', 'black').map((kind) => (s: Sitting) => edit.addPanel(s, kind as 'white').sitting),
  fc
    .constantFrom('ball', 'card', 'flag-before-card')
    .map((kind) => (s: Sitting) => edit.addObject(s, kind as 'ball').sitting),
  fc.integer({ min: -40, max: 40 }).map((headTurnDeg) => (s: Sitting) => edit.setSitter(s, 'sitter', { headTurnDeg })),
  fc
    .constantFrom('dark', 'very light')
    .map((skin) => (s: Sitting) => edit.setSitter(s, 'sitter', { skin: skin as 'dark' })),
  fc
    .constantFrom('broad', 'child', 'average')
    .map((preset) => (s: Sitting) => edit.setSitterShape(s, s.sitters[s.sitters.length - 1].id, preset as 'broad')),
  fc.constant((s: Sitting) =>
    s.sitters.length < 2 ? edit.addSitter(s).sitting : edit.removeThing(s, s.sitters[1].id),
  ),
  fc.constant((s: Sitting) => edit.setBackdrop(s, s.backdrop ? null : {})),
  fc.constant((s: Sitting) => edit.setRoom(s, { wallReflectance: 0.3 })),
  fc.constant((s: Sitting) => edit.setCamera(s, { fNumber: 11 })),
  fc.double({ min: -0.3, max: 0.3, noNaN: true }).map((x) => (s: Sitting) => {
    return edit.setCamera(s, { positionM: [x, s.camera.positionM[1], s.camera.positionM[2]] })
  }),
  fc
    .constantFrom<edit.SitterGaze>('ahead', 'camera', { acrossDeg: -20, upDeg: 5 }, { acrossDeg: 0, upDeg: 0 })
    .map((gaze) => (s: Sitting) => edit.setSitter(s, 'sitter', { gaze })),
  fc
    .constantFrom(0, 0.1)
    .map((forwardM) => (s: Sitting) => edit.setLean(s, s.sitters[s.sitters.length - 1].id, { forwardM })),
  fc
    .integer({ min: -6, max: 0 })
    .map((stops) => (s: Sitting) => (s.sources.length ? edit.setPower(s, s.sources[0].id, stops) : s)),
  fc.constant((s: Sitting) => (s.sources.length ? edit.switchSource(s, s.sources[0].id, !s.sources[0].on) : s)),
  fc.constant(edit.mirrorSet),
)

/** Functions of an emission are made anew each time; everything that is data must be equal. */
const asData = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value, (_, v) => (ArrayBuffer.isView(v) ? Array.from(v as Float32Array) : v)))

test('a rig built along a row of edits is the rig built from scratch, seeds and all', () => {
  fc.assert(
    fc.property(fc.array(edits, { minLength: 1, maxLength: 8 }), (row) => {
      const build = createRigBuilder(assets)
      let sitting = firstSitting()
      build(sitting)
      for (const change of row) {
        sitting = change(sitting)
        expect(asData(build(sitting))).toEqual(asData(assembleRig(sitting, assets)))
      }
      // Back to the start, as undo does: what was remembered must not have changed underneath.
      const start = firstSitting()
      expect(asData(build(start))).toEqual(asData(assembleRig(start, assets)))
    }),
    { numRuns: 15, seed: 20260101 },
  )
})
