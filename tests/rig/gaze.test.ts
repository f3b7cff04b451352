import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { createRigBuilder, type RigFigure } from '../../src/rig'
import { firstSitting, setCamera, setGaze } from '../../src/sitting'
import { distance, normalize, subtract, type Vec3 } from '../../src/space'

const figure = readFigureAsset(new Uint8Array(readFileSync('assets/sitter.glb')))
const first = firstSitting()
const moved: Vec3 = [0.5, 1.4, 2]
const sightOf = ({ posed: { landmarks } }: RigFigure): Vec3 =>
  normalize(subtract(landmarks.pupilLeft.position, landmarks.eyeCentreLeft.position))
const towards = ({ posed: { landmarks } }: RigFigure, lens: Vec3): Vec3 =>
  normalize(subtract(lens, landmarks.eyeCentreLeft.position))

test('eyes on the lens follow a moved camera; other eyes let the posed figure be', () => {
  const build = createRigBuilder({ figure })
  const ahead = build(first)
  expect(build(setCamera(first, { positionM: moved })).figures).toBe(ahead.figures)
  const looking = setGaze(first, 'sitter', 'camera')
  const before = build(looking).figures[0]
  expect(distance(sightOf(before), towards(before, looking.camera.positionM))).toBeLessThan(1e-6)
  const after = build(setCamera(looking, { positionM: moved })).figures[0]
  expect(distance(sightOf(after), towards(after, moved))).toBeLessThan(1e-6)
  // What the lens sets and where it aims move no eye.
  expect(build(setCamera(setCamera(looking, { positionM: moved }), { fNumber: 4, aimM: [0, 1, 0] })).figures[0]).toBe(
    after,
  )
})
