import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { bodiesOf, directAt } from '../../src/meter'
import { tapesTo } from '../../src/paper'
import { createRayCaster } from '../../src/rays'
import { takeReadings } from '../../src/readings'
import { assembleRig, loadCentre, placeLandmarks } from '../../src/rig'
import { asBuilt, type Measured, type SheetInput, setUpSheet, tapeRows, whatToChange } from '../../src/sheet'
import { centreAt, placeOf, readSitting, type Sitting, writeSitting } from '../../src/sitting'
import { addScaled, distance, normalize, subtract } from '../../src/space'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const read = readSitting(readFileSync('scenes/notice-board.sitting.json', 'utf8'))
if ('problems' in read) throw new Error('notice-board')
const { sitting } = read

function inputOf(of: Sitting): SheetInput {
  const rig = assembleRig(of, { figure })
  const bodies = bodiesOf(rig)
  return {
    sitting: of,
    rig,
    ...takeReadings({ sitting: of, rig, bodies, caster: createRayCaster(bodies.bodies), paths: 0 }),
  }
}

const NOTHING: Measured = { tapes: {}, distances: {}, heights: {}, dials: {}, meters: {} }
const input = inputOf(sitting)
const sheet = setUpSheet(input)
const built = (measured: Partial<Measured>): Sitting => {
  const answer = asBuilt(input, sheet.tape, { ...NOTHING, ...measured }, 'Read: A alone f/8.')
  if ('problems' in answer) throw new Error(JSON.stringify(answer.problems))
  return answer.sitting
}
/** Light of A at the cheek, disc to it, with all that stands in its way, lx·s at the powers that the document has. */
function lightOf(of: Sitting): number {
  const rig = assembleRig(of, { figure })
  const bodies = bodiesOf(rig)
  const scene = { rig, bodies, caster: createRayCaster(bodies.bodies) }
  const { position, normal } = rig.figures[0].posed.landmarks.cheekLeft
  const point = addScaled(position, normal, 0.005)
  const probe = { point, normal: normalize(subtract(rig.sources[0].frame.origin, point)) }
  return directAt(scene, probe, 'disc')[0].rgb[1]
}

test('a key that reads 0.4 stop over the plan: the dial and the distance that are named take it back', () => {
  const row = sheet.meters.find(({ id }) => id === 'source.A.alone')!
  const words = whatToChange(input, row, (row.value ?? 0) * 2 ** 0.2)
  const [, metres] = words.match(/^lower by 0\.4 stop to 1\/\S.* or move to ([\d.]+) m\.$/)!
  // Judged by the meter: the source moved there along its own line, at the power that it has.
  const fixed: Sitting = { ...sitting, reExpose: 'nothing' }
  const marks = placeLandmarks(input.rig.figures[0])
  const place = placeOf(sitting.sources[0].centreM, sitting.camera, marks)
  const centreM = centreAt({ ...place, tapeM: Number(metres) }, sitting.camera, marks)
  const moved = { ...fixed, sources: [{ ...sitting.sources[0], centreM }] }
  const change = Math.log2(lightOf(moved) / lightOf(fixed))
  expect(Math.abs(change + 0.4)).toBeLessThan(0.1)
})

test('as planned and as built are the same set, at the powers that the dials showed; the plan stays as a take', () => {
  const same = built({})
  expect(same.sources[0].centreM).toEqual(sitting.sources[0].centreM)
  expect(same.reExpose).toBe('nothing')
  expect(Math.log2(lightOf(same) / lightOf(sitting))).toBeCloseTo(input.exposure.factorStops, 6)
  expect(same.takes.at(-1)?.name).toBe('plan')
  expect(readSitting(writeSitting(same))).toEqual({ sitting: same })
})

test('a stand that was taped elsewhere is there; heights, distances and dials are as measured', () => {
  const foot = loadCentre(input.rig.sources[0])
  const { fromXM, fromZM } = tapesTo(sheet.fixed, [foot[0] + 0.1, foot[2] - 0.05])
  const moved = built({ tapes: { 'source.key': { fromXM, fromZM } }, dials: { key: -3 }, heights: { key: 1.9 } })
  const [x, y, z] = moved.sources[0].centreM
  expect(Math.hypot(x - sitting.sources[0].centreM[0] - 0.1, z - sitting.sources[0].centreM[2] + 0.05)).toBeLessThan(
    0.05,
  )
  expect([y, moved.sources[0].head.powerStops]).toEqual([1.9, -3])
  const near = built({ distances: { key: 1.3 } })
  const rig = assembleRig(near, { figure })
  const cheek = placeLandmarks(rig.figures[0]).cheekLeft
  expect(distance(near.sources[0].centreM, cheek)).toBeCloseTo(1.3, 6)
})

/** A card 0.5 m off, a second sitter, a flat panel and a V-flat: each is measured where another sitting has it. */
test('further sitters, objects, panels and both leaves of a folded one are where they were taped', () => {
  const [sitter] = sitting.sitters
  const [panel] = sitting.panels
  const set = (by: number): Sitting => ({
    ...sitting,
    sitters: [sitter, { ...sitter, id: 'second', xM: 0.7 + by / 50, zM: -0.3 - by / 100 }],
    panels: [
      { ...panel, id: 'flat', centreM: [-0.9, 1, 0.4 + by / 40], turnDeg: 70 + by },
      { ...panel, id: 'v-flat', centreM: [1.2 + by / 40, 1, -0.6], turnDeg: -100 - by, foldDeg: 60 + 2 * by },
    ],
    objects: [{ id: 'ball', kind: 'ball', centreM: [0.4, 1.2, 0.5 + by / 50], diameterM: 0.1, reflectance: 0.5 }],
  })
  const [plan, real] = [set(0), set(8)]
  const planned = { ...input, sitting: plan, rig: assembleRig(plan, { figure }) }
  const rows = tapeRows(planned)
  const found = tapeRows({ sitting: real, rig: assembleRig(real, { figure }) })
  const tapes = Object.fromEntries(found.map(({ id, fromXM, fromZM }) => [id, { fromXM, fromZM }]))
  const answer = asBuilt(planned, rows, { ...NOTHING, tapes }, '')
  if ('problems' in answer) throw new Error(JSON.stringify(answer.problems))
  const { sitters, panels, objects } = answer.sitting
  expect([sitters[1].xM, sitters[1].zM]).toEqual([expect.closeTo(0.86, 3), expect.closeTo(-0.38, 3)])
  expect(objects[0].centreM[2]).toBeCloseTo(0.66, 3)
  real.panels.forEach(({ centreM, turnDeg, foldDeg }, i) => {
    expect(panels[i].centreM[0]).toBeCloseTo(centreM[0], 3)
    expect(panels[i].centreM[2]).toBeCloseTo(centreM[2], 3)
    expect(Math.abs(panels[i].turnDeg - turnDeg)).toBeLessThan(0.2)
    expect(Math.abs((panels[i].foldDeg ?? 0) - (foldDeg ?? 0))).toBeLessThan(0.2)
  })
})

test('a boom’s stand taped elsewhere leaves its lamp where it hangs', () => {
  const stand = { name: 'boom stand', highestM: 1.6, loadKg: 5, boomM: 1.5 }
  const [key, ...others] = sitting.sources
  const boomed = inputOf({ ...sitting, sources: [{ ...key!, stand }, ...others] })
  const rows = tapeRows(boomed)
  const row = rows.find(({ id }) => id === 'boom.key')!
  expect(rows.some(({ id }) => id === 'source.key')).toBe(false)
  const fromXM = row.fromXM + 0.4
  const answer = asBuilt(boomed, rows, { ...NOTHING, tapes: { [row.id]: { fromXM, fromZM: row.fromZM } } }, '')
  if ('problems' in answer) throw new Error(JSON.stringify(answer.problems))
  expect(distance(answer.sitting.sources[0]!.centreM, key!.centreM)).toBeLessThan(1e-9)
})
