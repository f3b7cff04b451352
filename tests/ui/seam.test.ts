/** Where the divider of two takes begins: across the edge of the nose's shadow. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { projectToFrame } from '../../src/camera'
import { readFigureAsset } from '../../src/figure'
import { assembleRig, placeLandmarks, rigSeen } from '../../src/rig'
import { firstSitting, type Sitting, setSourcePlace, switchSource } from '../../src/sitting'
import { seamAt } from '../../src/ui/takes/seam'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const rigOf = (sitting: Sitting) => assembleRig(sitting, { figure })
const first = firstSitting()
const marks = placeLandmarks(rigOf(first).figures[0])
const noseAt = (sitting: Sitting) => {
  const rig = rigOf(sitting)
  const { view } = rigSeen(rig, 'camera')
  return 50 * (1 + projectToFrame(rig.figures[0].posed.landmarks.noseTip.position, view.frame, view)!.x)
}

test('a shadow falls away from the light: from a key at camera right the seam is left of the nose, and the other way round', () => {
  const [key] = first.sources
  const other = setSourcePlace(first, key.id, { azimuthFromLensDeg: -30 }, marks)
  const [right, left] = [first, other].map((sitting) => seamAt(rigOf(sitting), 'camera') - noseAt(sitting))
  expect(right).toBeLessThan(-1)
  expect(left).toBeGreaterThan(1)
  // Within the face, which is some 15 cm across: of the frame at the first sitting's distance less than half.
  expect(Math.max(-right!, left!)).toBeLessThan(15)
})

test('without a source it goes through the nose, the middle of the face', () => {
  const dark = switchSource(first, first.sources[0].id, false)
  expect(seamAt(rigOf(dark), 'camera')).toBeCloseTo(noseAt(dark), 9)
})
