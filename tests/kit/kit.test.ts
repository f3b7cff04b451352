import { readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import type { z } from 'zod'
import {
  addHead,
  addModifier,
  addStand,
  changeEntry,
  emptyKit,
  type Kit,
  keepCalibration,
  kitJsonSchema,
  kitSchema,
  readKit,
  removeEntry,
  resizeModifier,
  takeHead,
  takeModifier,
  takeStand,
  updateFromKit,
  writeKit,
} from '../../src/kit'
import {
  calibrateSource,
  EditRefused,
  firstSitting,
  problemSentence,
  readSitting,
  setHead,
  setModifier,
  writeSitting,
} from '../../src/sitting'

const TEXT = readFileSync('scenes/evening-class.kit.json', 'utf8')
const kitOf = (source: unknown): Kit => {
  const result = readKit(source)
  if ('problems' in result) throw new Error(result.problems.map(problemSentence).join('\n'))
  return result.kit
}
const kit = kitOf(TEXT)
const told = (source: unknown): readonly string[] => {
  const result = readKit(source)
  return 'problems' in result ? result.problems.map((problem) => `${problem.rule} ${problemSentence(problem)}`) : []
}

type Plain<T> = T extends readonly unknown[]
  ? { -readonly [K in keyof T]: Plain<T[K]> }
  : T extends object
    ? { -readonly [K in keyof T as string extends K ? never : K]: Plain<T[K]> }
    : T
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false

describe('the file', () => {
  test('K2 the schema says what types.ts says, and shared/kit.schema.json is current: npm run schema', () => {
    const same: Same<Plain<z.infer<typeof kitSchema>>, Plain<Kit>> = true
    expect(same && kitSchema.safeParse(kit).success).toBe(true)
    expect(JSON.parse(readFileSync('shared/kit.schema.json', 'utf8'))).toEqual(
      JSON.parse(JSON.stringify(kitJsonSchema())),
    )
  })

  test('K2 another reader of JSON Schema takes the sample and refuses a spoiled one', () => {
    const validate = new Ajv2020({ strict: false }).compile(kitJsonSchema())
    expect(validate(JSON.parse(TEXT)), JSON.stringify(validate.errors)).toBe(true)
    const [head, ...heads] = kit.heads
    expect(validate({ ...kit, heads: [{ ...head, energyJ: 0 }, ...heads] })).toBe(false)
  })

  test('K3 what is not known survives, at every level; written twice it is the same text', () => {
    const odd = { ...kit, owner: 'the class', heads: kit.heads.map((head) => ({ ...head, shelf: 3 })) }
    const again = kitOf(writeKit(odd))
    expect(again).toMatchObject({ owner: 'the class', heads: [{ shelf: 3 }, { shelf: 3 }] })
    const moved = changeEntry(again, 'heads', 'head-200', { massKg: 1.5 })
    expect(moved).toMatchObject({ owner: 'the class', heads: [{ shelf: 3, massKg: 1.5 }, { shelf: 3 }] })
    expect(writeKit(kit)).toBe(TEXT)
  })

  test('K5 an older version is raised step by step, a newer one refused', () => {
    const old = { ...kit, version: 1, title: undefined, name: 'old' }
    const steps = [
      {
        to: 2,
        name: 'name becomes title',
        up: ({ name, ...rest }: Readonly<Record<string, unknown>>) => ({ ...rest, title: name }),
      },
    ]
    // Raised to a version that this reader's schema does not have: the step was taken.
    expect(readKit(old, steps)).toMatchObject({ problems: [{ path: 'version', got: '2' }] })
    expect(told({ ...kit, version: 2 })[0]).toMatch(/^K5 version: expected 1 to 1.*got 2.*newer Halfshade/)
  })

  test.each([
    ['{ "format": ', /^K6 kit: expected a text in JSON, got .*Open a kit file/],
    [[], /^K1 kit: expected a kit in braces/],
    [
      { format: 'halfshade.sitting' },
      /^K1 format: expected "halfshade.kit", got "halfshade.sitting"\. Open .*\*\.kit\.json/,
    ],
    [
      { ...kit, heads: [{ ...kit.heads[0], energyJ: -3 }] },
      /^K2 heads\[0\]\.energyJ: expected a number from 1 to 6400 J, got -3\. Change/,
    ],
    [{ ...kit, heads: [{ ...kit.heads[0], energyJ: '200' }] }, /^K2 heads\[0\]\.energyJ: .*got "200"\. Replace/],
    [{ ...kit, stands: [{ ...kit.stands[0], name: '' }] }, /^K2 stands\[0\]\.name: expected a name, got ""/],
    [
      { ...kit, stands: [...kit.stands, kit.stands[0]] },
      /^K4 stands\[2\]\.id: expected an id that no other.*as in stands\[0\]/,
    ],
    [{ ...kit, modifiers: [{ ...kit.modifiers[0], modifier: { kind: 'sieve' } }] }, /^K4 modifiers\[0\]\.modifier/],
    [{ ...kit, heads: [{ ...kit.heads[1], dialTop: 6 }] }, /^K8 heads\[0\]\.dialTop: expected dialStyle "numbers"/],
    [
      {
        ...kit,
        calibrations: [
          { id: 'c', headId: 'nobody', modifierId: 'white-95', stops: 0.1, date: '2026-11-26', readFNumber: 8 },
        ],
      },
      /^K7 calibrations\[0\]\.headId: expected the id of one of the heads: head-200, head-400, got "nobody"/,
    ],
  ])('a bad file tells path, what was expected, what was found, what to do (%#)', (source, words) => {
    expect(told(source).join('\n')).toMatch(words)
  })
})

describe('edits', () => {
  test('entries are added, changed, resized and removed; each refusal leaves the kit as it was', () => {
    const [source] = firstSitting().sources
    const one = addHead(emptyKit(), source)
    const two = addModifier(one.kit, source!, 'my umbrella')
    const three = addStand(two.kit)
    expect(three.kit.heads[0]).not.toHaveProperty('powerStops')
    expect(resizeModifier(three.kit, two.id, { diameterM: 1.2 }).modifiers[0]!.modifier.diameterM).toBe(1.2)
    const before = structuredClone(three.kit)
    expect(() => resizeModifier(three.kit, two.id, { diameterM: -1 })).toThrow(EditRefused)
    expect(() => changeEntry(three.kit, 'stands', three.id, { highestM: Number.NaN })).toThrow(/0\.3 to 8 m/)
    expect(() => changeEntry(three.kit, 'heads', one.id, { energyJ: 0 })).toThrow(/1 to 6400 J/)
    expect(three.kit).toEqual(before)
    expect(removeEntry(three.kit, one.id).heads).toHaveLength(0)
  })

  test('K9 the id of a removed entry does not come back, not even out of the file: a sitting may still name it', () => {
    const one = addHead(emptyKit())
    const again = kitOf(writeKit(removeEntry(one.kit, one.id)))
    expect(addHead(again).id).not.toBe(one.id)
    const two = addHead(one.kit)
    expect(addHead(removeEntry(two.kit, two.id)).id).not.toBe(two.id)
    expect(told({ ...again, nextNumber: 0 })[0]).toMatch(/^K2 nextNumber: expected a number from 1/)
  })

  test('a calibration is kept with its date for the pair, comes with the pair, and goes with either', () => {
    const first = firstSitting()
    const id = first.sources[0]!.id
    const paired = takeModifier(takeHead(first, id, kit, 'head-200'), id, kit, 'white-95')
    const calibrated = calibrateSource(paired, id, { readFNumber: 8, workedOut: 8 / Math.SQRT2, date: '2026-11-26' })
    const kept = keepCalibration(kit, calibrated.sources[0]!)
    expect(kept.calibrations).toMatchObject([
      { headId: 'head-200', modifierId: 'white-95', stops: expect.closeTo(1, 9), date: '2026-11-26', readFNumber: 8 },
    ])
    // Another sitting takes the pair: calibrated at once; the same head in another modifier is not.
    const other = takeModifier(takeHead(firstSitting(), id, kept, 'head-200'), id, kept, 'white-95')
    expect(other.sources[0]!.calibration?.stops).toBeCloseTo(1, 9)
    expect(takeModifier(other, id, kept, 'box-60').sources[0]!.calibration).toBeUndefined()
    expect(removeEntry(kept, 'white-95').calibrations).toHaveLength(0)
    expect(() => keepCalibration(kit, first.sources[0]!)).toThrow(/head and modifier from the kit first/)
  })
})

describe('copies in a sitting', () => {
  const first = firstSitting()
  const id = first.sources[0]!.id
  const used = takeStand(takeModifier(takeHead(first, id, kit, 'head-200'), id, kit, 'box-60'), id, kit, 'boom')
  const source = used.sources[0]!

  test('hold every field of the entries, their ids, and survive the file', () => {
    expect(source.head).toMatchObject({ name: '200 J head', energyJ: 200, lowestStops: -5, stepStops: 0.1, dialTop: 6 })
    expect(source.modifier).toMatchObject({ kind: 'softbox', widthM: 0.6, heightM: 0.9 })
    expect(source).toMatchObject({ modifierKg: 1.4, stand: { name: 'boom', boomM: 1.5 } })
    expect(source.kit).toEqual({ headId: 'head-200', modifierId: 'box-60', standId: 'boom' })
    const again = readSitting(writeSitting(used))
    expect('sitting' in again && again.sitting.sources[0]).toEqual(source)
    expect(first.sources[0]!.kit).toBeUndefined()
  })

  test('a power that the dial does not reach is set to its lowest; what is changed by hand is no longer of the kit', () => {
    const low = { ...first, sources: [{ ...first.sources[0]!, head: { ...first.sources[0]!.head, powerStops: -7 } }] }
    expect(takeHead(low, id, kit, 'head-200').sources[0]!.head.powerStops).toBe(-5)
    expect(setHead(used, id, { energyJ: 300 }).sources[0]!.kit).toEqual({ modifierId: 'box-60', standId: 'boom' })
    expect(setModifier(used, id, { widthM: 0.8 }).sources[0]!.kit).toEqual({ headId: 'head-200', standId: 'boom' })
    expect(takeStand(used, id, kit, null).sources[0]!.stand).toBeUndefined()
    expect(() => takeHead(used, id, kit, 'nobody')).toThrow(/one of head-200, head-400/)
  })

  test('updated from a kit that has changed; what it does not have stays, and is named', () => {
    const changed = removeEntry(changeEntry(kit, 'heads', 'head-200', { energyJ: 250 }), 'boom')
    const { sitting, from, missing } = updateFromKit(used, changed)
    expect(sitting.sources[0]!.head.energyJ).toBe(250)
    expect(sitting.sources[0]!.stand).toEqual(source.stand)
    expect(from).toEqual(['A: head "200 J head"', 'A: modifier "softbox 60 × 90"'])
    expect(missing).toEqual(['A: stand boom'])
  })

  /** 1e6/2000 K + 200 mired is 1429 K. */
  test('S19 a lamp that does not go with the gel before it is refused, and stays where a kit is taken anew', () => {
    const gelled = setHead(used, id, { gelMired: 200 })
    const warm = changeEntry(kit, 'heads', 'head-200', { colourTemperatureK: 2000 })
    expect(() => takeHead(gelled, id, warm, 'head-200')).toThrow(EditRefused)
    const { sitting, from, refused } = updateFromKit(gelled, changeEntry(warm, 'stands', 'boom', { loadKg: 9 }))
    expect(sitting.sources[0]!.head).toEqual(gelled.sources[0]!.head)
    expect(sitting.sources[0]!.stand!.loadKg).toBe(9)
    expect(from).toHaveLength(2)
    expect(refused[0]).toMatch(/^A: head "200 J head"\. head\.gelMired: expected a shift that leaves 2000 K/)
    expect('sitting' in readSitting(writeSitting(sitting))).toBe(true)
  })

  test('S3 what is not known of a head stays on it when its lamp is taken from a kit, and anew', () => {
    const odd = { ...first, sources: [{ ...first.sources[0]!, head: { ...first.sources[0]!.head, serial: 'a7' } }] }
    const taken = takeHead(odd, id, kit, 'head-200')
    expect(taken.sources[0]!.head).toMatchObject({ serial: 'a7', energyJ: 200 })
    expect(updateFromKit(taken, kit).sitting.sources[0]!.head).toMatchObject({ serial: 'a7' })
    // Nothing of the former lamp is left: the other one says nothing of its dial.
    expect(takeHead(taken, id, kit, 'head-400').sources[0]!.head).not.toHaveProperty('dialTop')
  })

  test('every fact of a lamp that is changed by hand takes it out of the kit; a gel does not', () => {
    const modelling = { lamp: 'LED', powerW: 20, colourTemperatureK: 5500, followsDial: true } as const
    for (const change of [
      { colourTemperatureK: 5000 },
      { massKg: 2 },
      { t05S: 0.001 },
      { t01S: 0.003 },
      { t01LowestS: 0.0005 },
      { modelling },
    ])
      expect(setHead(used, id, change).sources[0]!.kit, JSON.stringify(change)).not.toHaveProperty('headId')
    expect(setHead(used, id, { gelMired: 60 }).sources[0]!.kit).toHaveProperty('headId')
  })
})
