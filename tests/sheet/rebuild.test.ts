import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { bodiesOf } from '../../src/meter'
import { plain } from '../../src/print'
import { createRayCaster } from '../../src/rays'
import { takeReadings } from '../../src/readings'
import { assembleRig, placeLandmarks } from '../../src/rig'
import { type SetUpSheet, setUpSheet, sheetDocument } from '../../src/sheet'
import { rimRows } from '../../src/sheet/tape'
import { centreAt, firstSitting, readSitting, type Sitting, type Source } from '../../src/sitting'
import type { Vec3 } from '../../src/space'
import { expectFeetBeside } from './feet-beside'

/**
 * With nothing but what the sheet prints, a set is built again on an empty floor: within 5 cm, 5° and 0.3 stop, the same pattern
 * (trade.md §3.1, lesson 15: common practice, no source). What a stranger reads off the paper is read here by the same words.
 */

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))

function read(sitting: Sitting) {
  const rig = assembleRig(sitting, { figure })
  const bodies = bodiesOf(rig)
  return { sitting, rig, ...takeReadings({ sitting, rig, bodies, caster: createRayCaster(bodies.bodies), paths: 0 }) }
}

const factsOf = (facts: SetUpSheet['camera']): Readonly<Record<string, string>> =>
  Object.fromEntries(facts.map(({ name, words }) => [name, plain(words).replaceAll('\u00a0', ' ')]))
const number = (text: string | undefined, what = /[\d.]+/): number => Number(what.exec(text ?? '')?.[0])
/** '45° to camera right' to the right, which is more; 'straight on': 0. */
const sideways = (text: string | undefined): number =>
  /straight/.test(text ?? '') ? 0 : number(text) * (/left/.test(text ?? '') ? -1 : 1)
/** '1/8 − 0.4' or '1/8 + 0.4' of full power. */
function dialOf(text: string | undefined): number {
  const [, part, way, tenths = '0'] = /1\/(\d+)(?: ([−+]) ([\d.]+))?/.exec(text ?? '')!
  return -Math.log2(Number(part)) + Number(tenths) * (way === '−' ? -1 : 1)
}
const MODIFIERS: readonly (readonly [RegExp, string])[] = [
  [/white umbrella/, 'white-umbrella'],
  [/wide dish/, 'wide-dish'],
  [/standard dish/, 'dish'],
]

function rebuilt(sheet: SetUpSheet): Sitting {
  const first = firstSitting()
  const card = (title: string) => factsOf(sheet.set.find((one) => one.title === title)!.facts)
  const [camera, sitter, backdrop, room] = [factsOf(sheet.camera), card('Sitter'), card('Backdrop'), card('Room')]
  const [widthM, depthM, heightM] = [...room.size!.matchAll(/([\d.]+) m/g)].map(([, m]) => Number(m))
  const [fromRight, fromBack] = [...room['X stands']!.matchAll(/([\d.]+) m/g)].map(([, m]) => Number(m))
  const [walls, ceiling, floor] = [...room.paint!.matchAll(/(\d+) %/g)].map(([, share]) => Number(share) / 100)
  const tones = [...(backdrop.grey ?? backdrop.colour)!.matchAll(/(\d+) %/g)].map(([, share]) => Number(share) / 100)
  const empty: Sitting = {
    ...first,
    reExpose: 'nothing',
    sitters: [{ ...first.sitters[0], eyeHeightM: number(sitter.eyes), headTurnDeg: sideways(sitter.head) }],
    ...{ panels: [], objects: [], meterPlaces: [] },
    backdrop: {
      widthM: number(backdrop.paper),
      heightM: number(backdrop.paper, /[\d.]+(?= m[^w]*high)/),
      distanceM: number(backdrop.behind),
      reflectance: [tones[0]!, tones[1] ?? tones[0]!, tones[2] ?? tones[0]!],
    },
    room: {
      ...{
        widthM: widthM!,
        depthM: depthM!,
        heightM: heightM!,
        xM: fromRight! - widthM! / 2,
        zM: depthM! / 2 - fromBack!,
      },
      ...{ wallReflectance: walls!, ceilingReflectance: ceiling!, floorReflectance: floor! },
    },
  }
  const marks = placeLandmarks(assembleRig(empty, { figure }).figures[0])
  const stands = {
    ...empty.camera,
    ...{ iso: number(camera.ISO), fNumber: number(camera.aperture, /[\d.]+$/), focalLengthMm: number(camera.lens) },
    positionM: [0, number(camera.height), number(camera.back)] as Vec3,
    aimM: [0, number(camera.frame), 0] as Vec3,
  }
  const face = assembleRig({ ...empty, camera: stands }, { figure }).figures[0].posed.landmarks
  const sources = sheet.sources.map(({ title, facts }): Source => {
    const says = factsOf(facts)
    const kind = MODIFIERS.find(([words]) => words.test(title))![1]
    const place = {
      azimuthFromLensDeg: sideways(says.round),
      elevationDeg: number(says.up),
      tapeM: number(says.tape),
    }
    const paper = /backdrop, (.*) to ([RL]) of Z, (.*) up/.exec(says.aim!)
    const aimM: Vec3 = paper
      ? [number(paper[1]) * (paper[2] === 'R' ? 1 : -1), number(paper[3]), -empty.backdrop!.distanceM]
      : face[/cheek at camera right/.test(says.aim!) ? 'cheekLeft' : 'noseTip'].position
    return {
      ...first.sources[0],
      id: title.slice(0, 1),
      letter: title.slice(0, 1),
      role: /key/.test(title) ? 'key' : 'backdrop',
      head: {
        ...first.sources[0].head,
        energyJ: number(says.power, /\d+(?= J)/),
        guideNumberM: null,
        powerStops: dialOf(says.power),
      },
      modifier: { ...defaultModifier(kind), diameterM: number(title, /[\d.]+(?= m)/) },
      centreM: centreAt(place, stands, marks),
      aimM,
      rollDeg: 0,
    }
  })
  return { ...empty, camera: stands, sources }
}

/** What stands twice on the paper, on a card and beside the drawing, is one figure; heights add up as printed. */
function figuresAgree(plan: ReturnType<typeof read>, sheet: SetUpSheet): void {
  const document = sheetDocument(plan, sheet, { paper: 'a4', madeAt: new Date(0), picture: null })
  expect(expectFeetBeside(document.sections, document.foot)).toBeGreaterThan(30)
  const sections = [document.lead, ...document.sections.map(({ blocks }) => blocks)].flat()
  const drawn = sections.flatMap((block) =>
    block.kind === 'drawing'
      ? block.drawing.shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
      : [],
  )
  const metres = (text: string | undefined) => /([\d.]+) m/.exec(text ?? '')?.[1]
  const eyes = Number(metres(factsOf(sheet.set[0]!.facts).eyes))
  for (const { facts } of sheet.sources) {
    const says = factsOf(facts)
    for (const [name, word] of [
      ['top edge', 'top'],
      ['height', 'centre'],
      ['lower edge', 'lower'],
    ] as const)
      expect(
        drawn.some((text) => text.startsWith(`${metres(says[name])} m`) && text.endsWith(word)),
        name,
      ).toBe(true)
    const both = /[\d.]+ m, \d+′ \d+″/
    for (const text of drawn.filter((one) => both.test(one) && one.endsWith('centre')))
      expect(says.height).toContain(both.exec(text)![0])
    expect(drawn.filter((text) => text.startsWith('tape '))).toContain(`tape ${metres(says.tape)} m`)
    const over = Number(metres(says.up ?? says.down)) * (says.up ? 1 : -1)
    expect(eyes + over).toBeCloseTo(Number(metres(says.height)), 9)
  }
}

test('the nearest rim is a point of the rim, not a corner: of a face square to the cheek √(d² + (½ the narrower side)²) off', () => {
  const first = firstSitting()
  const [key] = first.sources
  const { cheekLeft } = assembleRig(first, { figure }).figures[0].posed.landmarks
  const set: Sitting = {
    ...first,
    sources: [
      {
        ...key,
        modifier: { ...defaultModifier('softbox'), widthM: 0.6, heightM: 0.9 },
        aimM: cheekLeft.position,
        centreM: [cheekLeft.position[0] + 0.9, cheekLeft.position[1] + 0.3, cheekLeft.position[2] + 0.8],
      },
    ],
  }
  const [rim] = rimRows({ sitting: set, rig: assembleRig(set, { figure }) })
  expect(rim!.m).toBeCloseTo(Math.hypot(0.9, 0.3, 0.8, 0.3), 3)
})

test('a panel’s middle and an aim that has no name on the page are told from X, as the page asks for them', () => {
  const first = firstSitting()
  const aimM: Vec3 = [0.04, 1.02, -0.03]
  const centreM: Vec3 = [-0.62, 1.15, -0.1]
  const set: Sitting = {
    ...first,
    sources: [{ ...first.sources[0], aimM }],
    panels: [{ ...first.panels[0]!, centreM }],
  }
  const sheet = setUpSheet(read(set))
  const fromX = (words = '') =>
    ['right', 'left', 'before', 'behind'].map((side) =>
      Number(new RegExp(`([\\d.]+) m, [^a-z]+ ${side}`).exec(words)?.[1] ?? 0),
    )
  const aim = factsOf(sheet.sources[0]!.facts).aim
  expect([fromX(aim), number(aim, /[\d.]+(?= m, [^a-z]+ up)/)]).toEqual([[0.04, 0, 0, 0.03], 1.02])
  const panel = sheet.set.find(({ title }) => title.startsWith('White panel'))!
  expect(fromX(factsOf(panel.facts).middle)).toEqual([0, 0.62, 0, 0.1])
})

test.each(['three-umbrellas', 'coloured-backdrop', 'hard-key-from-the-side'])('%s', (scene) => {
  const file = readSitting(readFileSync(`scenes/${scene}.sitting.json`, 'utf8'))
  if ('problems' in file) throw new Error(scene)
  const plan = read(file.sitting)
  const sheet = setUpSheet(plan)
  figuresAgree(plan, sheet)
  const made = read(rebuilt(sheet))
  const value = ({ readings }: typeof plan, id: string) => readings.find((one) => one.id === id)?.value
  const apart = (id: string) => Number(value(made, id)) - Number(value(plan, id))
  expect(value(made, 'face.pattern')).toBe(value(plan, 'face.pattern'))
  for (const [i, { letter, frame }] of plan.rig.sources.entries()) {
    const [a, b] = [frame.origin, made.rig.sources[i]!.frame.origin]
    expect(Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])).toBeLessThan(0.05)
    for (const angle of ['azimuthFromLens', 'elevation', 'aim'])
      expect(Math.abs(apart(`source.${letter}.${angle}`)), `${letter} ${angle}`).toBeLessThan(5)
    const stops =
      2 * Math.log2(Number(value(made, `source.${letter}.alone`)) / Number(value(plan, `source.${letter}.alone`)))
    expect(Math.abs(stops), `${letter} alone`).toBeLessThan(0.3)
  }
  expect(Math.abs(apart('ratio.nearFar'))).toBeLessThan(0.3)
  expect(Math.abs(apart('backdrop.stops'))).toBeLessThan(0.3)
})
