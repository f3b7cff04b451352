/** Sources aimed by name: at the face, and at what they are to be bounced off. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { assembleRig, placeLandmarks } from '../../src/rig'
import {
  AIMS,
  aimBeside,
  aimName,
  aimPoint,
  aimSource,
  firstSitting,
  type Sitting,
  setRoom,
  setSitter,
} from '../../src/sitting'

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

test('a head that turns leaves the aim where it was: by how far is told, and one step aims again', () => {
  const straight = setSitter(first, 'sitter', { headTurnDeg: 0 })
  const before = placeLandmarks(assembleRig(straight, { figure }).figures[0]!)
  const aimed = aimSource(straight, 'key', aimPoint(straight, straight.sources[0]!, 'nose', before)!)
  expect(aimBeside(aimed, aimed.sources[0]!, before)).toBeNull()
  const turned = setSitter(aimed, 'sitter', { headTurnDeg: 35 })
  const now = placeLandmarks(assembleRig(turned, { figure }).figures[0]!)
  const beside = aimBeside(turned, turned.sources[0]!, now)
  expect(beside?.name).toBe('nose')
  // About an upright axis a point goes 2·r·sin(½ turn): the nose tip some 0.1 to 0.14 m before the neck's (from memory).
  expect(beside!.offM).toBeGreaterThan(2 * 0.09 * Math.sin((17.5 * Math.PI) / 180))
  expect(beside!.offM).toBeLessThan(2 * 0.15 * Math.sin((17.5 * Math.PI) / 180))
  const again = aimSource(turned, 'key', aimPoint(turned, turned.sources[0]!, 'nose', now)!)
  expect(aimName(again, again.sources[0]!, now)).toBe('nose')
  const away = aimSource(first, 'key', [0.4, 1.1, 0.2])
  expect(aimBeside(away, away.sources[0]!, marks)).toBeNull()
})
