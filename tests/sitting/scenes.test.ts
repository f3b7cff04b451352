import { readdirSync, readFileSync } from 'node:fs'
import Ajv2020 from 'ajv/dist/2020'
import { beforeAll, describe, expect, test } from 'vitest'
import { type FigureAsset, readFigureAsset } from '../../src/figure'
import { assembleRig, placeLandmarks, type Rig } from '../../src/rig'
import {
  firstSitting,
  openTake,
  readSitting,
  type Sitting,
  sittingJsonSchema,
  sourcePlace,
  writeSitting,
} from '../../src/sitting'

const FOLDER = 'scenes'
const files = readdirSync(FOLDER).filter((name) => name.endsWith('.sitting.json'))
const textOf = (name: string) => readFileSync(`${FOLDER}/${name}`, 'utf8')
const open = (name: string): Sitting => {
  const result = readSitting(textOf(`${name}.sitting.json`))
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.sitting
}

let figure: FigureAsset
beforeAll(() => {
  figure = readFigureAsset(readFileSync('assets/sitter.glb'))
})
const place = (sitting: Sitting) => {
  const rig: Rig = assembleRig(sitting, { figure })
  return sourcePlace(sitting.sources[0], sitting.camera, placeLandmarks(rig.figures[0]))
}

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true })
ajv.addKeyword('unit')
const validate = ajv.compile(sittingJsonSchema())

test('S2 shared/sitting.schema.json is current: npm run schema', () => {
  expect(JSON.parse(readFileSync('shared/sitting.schema.json', 'utf8'))).toEqual(
    JSON.parse(JSON.stringify(sittingJsonSchema())),
  )
})

describe('S2 S6 the JSON Schema judges as the reader does', () => {
  const first = firstSitting()
  test.each([
    ['a modifier of no known kind', { ...first, sources: [{ ...first.sources[0], modifier: { kind: 'lantern' } }] }],
    [
      'a modifier field out of range',
      { ...first, sources: [{ ...first.sources[0], modifier: { ...first.sources[0].modifier, diameterM: 40 } }] },
    ],
    [
      'a modifier field that is missing',
      { ...first, sources: [{ ...first.sources[0], modifier: { kind: 'white-umbrella' } }] },
    ],
    [
      'an energy out of range',
      { ...first, sources: [{ ...first.sources[0], head: { ...first.sources[0].head, energyJ: 0 } }] },
    ],
    ['a missing camera', { ...first, camera: undefined }],
  ])('%s is refused by both', (_, value) => {
    expect(validate(JSON.parse(JSON.stringify(value)))).toBe(false)
    expect('problems' in readSitting(value)).toBe(true)
  })
  test('unknown fields are let through by both', () => {
    const strange = {
      ...first,
      'x-mark': { a: 1 },
      sources: [{ ...first.sources[0], modifier: { ...first.sources[0].modifier, 'x-mark': 1 } }],
    }
    expect(validate(strange)).toBe(true)
    expect('sitting' in readSitting(strange)).toBe(true)
  })
})

test('there are six scenes', () => {
  expect(files).toHaveLength(6)
})

describe.each(files)('%s', (name) => {
  test('S13 is read, is valid by the JSON Schema, and is written back letter by letter', () => {
    const text = textOf(name)
    const result = readSitting(text)
    expect(result).not.toHaveProperty('problems')
    expect(validate(JSON.parse(text)), JSON.stringify(validate.errors)).toBe(true)
    expect('sitting' in result && writeSitting(result.sitting)).toBe(text)
  })
  test('its rig stands: every source outside the sitter and inside the room', () => {
    const sitting = open(name.replace('.sitting.json', ''))
    const rig = assembleRig(sitting, { figure })
    expect(rig.sources.some(({ on }) => on)).toBe(true)
    const { widthM, depthM, heightM, xM, zM } = sitting.room
    for (const { frame } of rig.sources) {
      const [x, y, z] = frame.origin
      expect(Math.abs(x - xM)).toBeLessThan(widthM / 2)
      expect(Math.abs(z - zM)).toBeLessThan(depthM / 2)
      expect(y > 0 && y < heightM).toBe(true)
      expect(Math.hypot(x, y - sitting.sitters[0].eyeHeightM, z)).toBeGreaterThan(0.4)
    }
  })
})

test('notice-board is the first sitting', () => {
  expect(open('notice-board')).toEqual(firstSitting())
  const { azimuthFromLensDeg, elevationDeg, tapeM } = place(open('notice-board'))
  expect(azimuthFromLensDeg).toBeCloseTo(45, 1)
  expect(elevationDeg).toBeCloseTo(35, 1)
  expect(tapeM).toBeCloseTo(1, 2)
})

test('flash-on-camera-close-to-wall: beside the lens, with a wall close behind', () => {
  const sitting = open('flash-on-camera-close-to-wall')
  const { centreM } = sitting.sources[0]
  expect(Math.hypot(...centreM.map((v, i) => v - sitting.camera.positionM[i]))).toBeLessThan(0.2)
  expect(sitting.backdrop).toBeNull()
  expect(sitting.room.zM - sitting.room.depthM / 2).toBeCloseTo(-0.35, 9)
})

test('hard-key-from-the-side: one bare dish, far round, and no panel', () => {
  const sitting = open('hard-key-from-the-side')
  expect(sitting.sources.map(({ modifier }) => modifier.kind)).toEqual(['dish'])
  expect(sitting.panels).toEqual([])
  expect(place(sitting).azimuthFromLensDeg).toBeGreaterThan(60)
})

test('three-umbrellas: three cloths in one place, a take each', () => {
  const sitting = open('three-umbrellas')
  const takes = sitting.takes.map(({ name }) => openTake(sitting, name))
  expect(takes.map(({ sources }) => sources[0].modifier.kind)).toEqual([
    'silver-umbrella',
    'white-umbrella',
    'shoot-through-umbrella',
  ])
  expect(new Set(takes.map(({ sources }) => JSON.stringify(sources[0].centreM))).size).toBe(1)
  expect(place(sitting).tapeM).toBeCloseTo(1.5, 2)
})

test('broad-against-short: one head turn, the key on either side of the lens', () => {
  const sitting = open('broad-against-short')
  const [short, broad] = sitting.takes.map(({ name }) => openTake(sitting, name))
  expect(short.sitters).toEqual(broad.sitters)
  // The head is turned to camera right: a key from there lights the side turned away from the lens.
  expect(short.sitters[0].headTurnDeg).toBeGreaterThan(0)
  expect(place(short).azimuthFromLensDeg).toBeCloseTo(50, 0)
  expect(place(broad).azimuthFromLensDeg).toBeCloseTo(-50, 0)
  expect(place(short).tapeM).toBeCloseTo(place(broad).tapeM, 2)
})

test('coloured-backdrop: a strong colour close behind, with a source of its own', () => {
  const sitting = open('coloured-backdrop')
  const [r, g, b] = sitting.backdrop?.reflectance ?? [0, 0, 0]
  expect(r).toBeGreaterThan(5 * Math.max(g, b))
  expect(sitting.backdrop?.distanceM).toBeLessThan(1)
  expect(sitting.sources.map(({ role }) => role)).toEqual(['key', 'backdrop'])
})
