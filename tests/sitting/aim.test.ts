/** Sources aimed by name: at the face, and at what they are to be bounced off. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { assembleRig, placeLandmarks } from '../../src/rig'
import { AIMS, aimName, aimPoint, aimSource, firstSitting, type Sitting, setRoom } from '../../src/sitting'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const first = firstSitting()
const rig = assembleRig(first, { figure })
const marks = placeLandmarks(rig.figures[0]!)
const at = (sitting: Sitting, name: (typeof AIMS)[number]) => aimPoint(sitting, sitting.sources[0]!, name, marks)

test('chin and nose are the sitter’s own; ceiling and walls lie on the room’s', () => {
  const { landmarks } = rig.figures[0]!.posed
  expect(at(first, 'chin')).toEqual(landmarks.chin.position)
  expect(at(first, 'nose')).toEqual(landmarks.noseTip.position)
  const { room } = first
  expect(at(first, 'ceiling')![1]).toBe(room.heightM)
  // The camera looks down −z: its right is +x.
  expect(at(first, 'wall at camera right')![0]).toBeCloseTo(room.xM + room.widthM / 2, 9)
  expect(at(first, 'wall at camera left')![0]).toBeCloseTo(room.xM - room.widthM / 2, 9)
  expect(at(first, 'backdrop')![2]).toBe(-first.backdrop!.distanceM)
})

test('an aim is told by its name until it is moved; outdoors nothing is bounced', () => {
  for (const name of AIMS) {
    const aimed = aimSource(first, 'key', at(first, name)!)
    expect(aimName(aimed, aimed.sources[0]!, marks)).toBe(name)
  }
  const aside = aimSource(first, 'key', [0.3, 1.1, 0.2])
  expect(aimName(aside, aside.sources[0]!, marks)).toBeNull()
  const out = setRoom(first, { outdoors: true })
  expect(AIMS.filter((name) => at(out, name) === null)).toEqual([
    'ceiling',
    'wall at camera left',
    'wall at camera right',
  ])
})
