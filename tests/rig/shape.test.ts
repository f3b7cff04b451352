import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { AVERAGE_SHAPE, readFigureAsset, SHAPE_FIELDS, SHAPE_PRESETS, ShapeError } from '../../src/figure'
import { assembleRig, createRigBuilder, type RigFigure, shapeFault } from '../../src/rig'
import {
  addSitter,
  firstSitting,
  moveSource,
  removeThing,
  type Sitting,
  setSitter,
  setSitterAge,
  setSitterShape,
} from '../../src/sitting'
import { distance } from '../../src/space'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const first = firstSitting()
const { sitting: two, id: second } = addSitter(first)

const partsOf = ({ posed }: RigFigure) => posed.parts.map(({ part }) => part)
const noseM = ({ posed: { landmarks } }: RigFigure) =>
  distance(landmarks.noseTip.position, landmarks.subnasale.position)

test('the average sitter is the asset itself, named or left out', () => {
  for (const sitting of [first, setSitterShape(first, 'sitter', 'average')])
    partsOf(assembleRig(sitting, { figure }).figures[0]).forEach((part, i) => {
      expect(part).toBe(figure.parts[i])
    })
})

test('each sitter is posed in their own shape', () => {
  const rig = assembleRig(setSitterShape(two, second, 'child'), { figure })
  // Lengths that the shapes name, between the landmarks of them (a landmark lies within 1 mm of the place measured from).
  expect(Math.abs(noseM(rig.figures[0]) - AVERAGE_SHAPE.noseProtrusionMm / 1000)).toBeLessThan(0.001)
  expect(Math.abs(noseM(rig.figures[1]) - SHAPE_PRESETS.child.noseProtrusionMm / 1000)).toBeLessThan(0.001)
})

test('eyes stand at the height that the document names, whatever the shape', () => {
  for (const preset of ['child', 'masculine', 'deepSet'] as const) {
    const level = setSitter(first, 'sitter', { headTurnDeg: 0 })
    const { posed } = assembleRig(setSitterShape(level, 'sitter', preset), { figure }).figures[0]
    const { eyeCentreLeft, eyeCentreRight } = posed.landmarks
    for (const { position } of [eyeCentreLeft, eyeCentreRight])
      expect(position[1]).toBeCloseTo(first.sitters[0].eyeHeightM, 6)
    expect(eyeCentreLeft.position[0]).toBeCloseTo(-eyeCentreRight.position[0], 6)
  }
})

describe('by identity', () => {
  const build = createRigBuilder({ figure })
  const shaped = setSitterShape(two, second, 'broad')
  const before = build(shaped)

  test('a moved lamp rebuilds no sitter', () => {
    expect(build(moveSource(shaped, 'key', [0.6, 1.8, 0.7])).figures).toBe(before.figures)
  })
  test('a turned head is posed again and shaped not again', () => {
    const turned = build(setSitter(shaped, second, { headTurnDeg: -20 }))
    expect(turned.figures[0]).toBe(before.figures[0])
    expect(turned.figures[1].posed).not.toBe(before.figures[1].posed)
    partsOf(turned.figures[1]).forEach((part, i) => {
      expect(part).toBe(partsOf(before.figures[1])[i])
    })
  })
  test('another shape of one sitter leaves the other; undo brings the same shape back', () => {
    const dialled = build(setSitterShape(shaped, second, { jawWidthMm: 95 }))
    expect(dialled.figures[0]).toBe(before.figures[0])
    expect(partsOf(dialled.figures[1])[0] === partsOf(before.figures[1])[0]).toBe(false)
    expect(partsOf(build(shaped).figures[1])[0]).toBe(partsOf(before.figures[1])[0])
  })
  test('two sitters of one shape, and another builder, share what was shaped', () => {
    const alike = build(setSitterShape(shaped, 'sitter', 'broad'))
    expect(partsOf(alike.figures[0])[0]).toBe(partsOf(alike.figures[1])[0])
    expect(partsOf(assembleRig(shaped, { figure }).figures[1])[0]).toBe(partsOf(before.figures[1])[0])
  })
  test('every shape keeps the triangles, so trees are refitted and pictures only moved', () => {
    const [one, other] = before.figures
    one.posed.parts.forEach(({ mesh, part }, i) => {
      expect(other.posed.parts[i].mesh.indices).toBe(mesh.indices)
      expect(other.posed.parts[i].part.proxyIndices).toBe(part.proxyIndices)
    })
  })
  test('after many dialled shapes and a removed sitter the rig is the one built from scratch', () => {
    const row: Sitting[] = [7.5, 9, 10.5, 12, 13.5, 15].map((age) => setSitterAge(shaped, second, age))
    for (const sitting of row) build(sitting)
    const last = removeThing(setSitterShape(row[0], 'sitter', 'lowBridge'), second)
    const afresh = readFigureAsset(readFileSync('assets/sitter.glb'))
    const [followed, scratch] = [build(last), assembleRig(last, { figure: afresh })].map(({ figures }) => figures)
    expect(followed).toHaveLength(1)
    expect(followed[0].posed.landmarks).toEqual(scratch[0].posed.landmarks)
    followed[0].posed.parts.forEach(({ mesh }, i) => {
      const other = scratch[0].posed.parts[i].mesh
      for (const name of ['positions', 'normals'] as const)
        expect(Buffer.compare(Buffer.from(mesh[name].buffer), Buffer.from(other[name].buffer)), name).toBe(0)
    })
  })
})

test('lengths that no one head can have together are refused with what to do', () => {
  // A child's proportions under a grown person's lengths.
  const torn = setSitterShape(first, 'sitter', { ageYears: SHAPE_FIELDS.ageYears.range[0] })
  expect(() => assembleRig(torn, { figure })).toThrow(ShapeError)
  const fault = shapeFault({ sitters: [first.sitters[0], torn.sitters[0]] }, figure)
  expect(fault).toMatchObject({
    rule: 'S16',
    path: 'sitters[1].shape.lengths',
    advice: expect.stringMatching(/preset\.$/),
  })
  expect(shapeFault(two, figure)).toBeNull()
})
