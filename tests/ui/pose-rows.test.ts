import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { drawElevation } from '../../src/paper'
import { assembleRig } from '../../src/rig'
import { EditRefused, firstSitting, type Sitting, setSitter } from '../../src/sitting'
import { eyesRisen } from '../../src/ui/controls/eyes-risen'
import type { ChoiceRow, NumberRow, Row } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'

const first = firstSitting()
const rowsOf = (sitting: Sitting): readonly Row[] =>
  sheetOf({ sitting, marks: null, exposure: null }, 'sitter')!.groups.flatMap(({ rows }) => rows)
const row = <R extends Row>(sitting: Sitting, id: string): R => rowsOf(sitting).find((entry) => entry.id === id) as R

test('gaze is chosen by word; a free one has its two angles', () => {
  const gaze = row<ChoiceRow>(first, 'gaze')
  expect(gaze.value).toBe('ahead')
  expect(gaze.choices.map(({ label }) => label)).toEqual(['ahead', 'at the lens', 'free'])
  expect(rowsOf(first).some(({ id }) => id.startsWith('gaze.'))).toBe(false)
  expect(gaze.change(first, 'camera').sitters[0].gaze).toBe('camera')
  const free = gaze.change(first, 'free')
  expect(row<ChoiceRow>(free, 'gaze').value).toBe('free')
  const aside = row<NumberRow>(free, 'gaze.acrossDeg').change(free, -20)
  expect(row<NumberRow>(aside, 'gaze.upDeg').change(aside, 10).sitters[0].gaze).toEqual({ acrossDeg: -20, upDeg: 10 })
  expect(row<ChoiceRow>(aside, 'gaze').change(aside, 'ahead').sitters[0].gaze).toBe('ahead')
})

test('a posture is chosen by word and moves the eyes alone; eyes at no such height say so', () => {
  const posture = row<ChoiceRow>(first, 'posture')
  expect(posture.value).toBe('seated')
  expect(posture.choices.map(({ label }) => label)).toEqual(['seated', 'standing', 'in a wheelchair'])
  const standing = posture.change(first, 'standing')
  expect(row<NumberRow>(standing, 'eyeHeightM').value).toBe(1.61)
  expect({ ...standing, sitters: [{ ...standing.sitters[0], eyeHeightM: 1.2 }] }).toEqual(first)
  const dialled = row<NumberRow>(first, 'eyeHeightM').change(first, 1.4)
  expect(row<ChoiceRow>(dialled, 'posture').value).toBe('own')
  expect(row<ChoiceRow>(dialled, 'posture').choices[0]!.label).toBe('as dialled')
})

test('a lens that the eyes do not reach is refused in place', () => {
  const away = setSitter(first, 'sitter', { headTurnDeg: 85 })
  expect(() => row<ChoiceRow>(away, 'gaze').change(away, 'camera')).toThrow(EditRefused)
})

test('lean goes both ways and aside, and too far is refused', () => {
  const forward = row<NumberRow>(first, 'lean.forwardM').change(first, 0.1)
  const both = row<NumberRow>(forward, 'lean.asideM').change(forward, -0.05)
  expect(both.sitters[0].lean).toEqual({ forwardM: 0.1, asideM: -0.05 })
  expect(row<NumberRow>(both, 'lean.forwardM').value).toBe(0.1)
  expect(() => row<NumberRow>(first, 'lean.forwardM').change(first, 0.5)).toThrow(EditRefused)
})

test('no two of these rows have one name for a screen reader', () => {
  const free = row<ChoiceRow>(first, 'gaze').change(first, 'free')
  const names = rowsOf(free).flatMap((entry) =>
    entry.kind === 'number' || entry.kind === 'choice' ? [entry.named ?? entry.label] : [],
  )
  expect(new Set(names).size).toBe(names.length)
})

test('with the chin down the typed height of the eyes is what the elevation says, as a tape would find it', () => {
  const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
  const drawn = (sitting: Sitting) => {
    const rig = assembleRig(sitting, { figure })
    const eyes = sheetOf({ sitting, marks: null, exposure: null, eyesRisenM: eyesRisen(sitting, rig) }, 'sitter')!
      .groups.flatMap(({ rows }) => rows)
      .find(({ id }) => id === 'eyeHeightM') as NumberRow
    const { shapes } = drawElevation({ sitting, rig, selected: 'sitter', units: 'metres' })
    const said = shapes.flatMap((shape) =>
      shape.kind === 'text' && shape.text.startsWith('eye line') ? [shape.text] : [],
    )
    return { eyes, said: said[0], eyesM: rig.figures[0]!.posed.eyeMidpoint[1] }
  }
  const bowed = setSitter(first, 'sitter', { chinDeg: -10 })
  // Bowed, they are lower than at rest: a centimetre or more, or there would be nothing to see here.
  expect(drawn(bowed).eyesM).toBeLessThan(first.sitters[0].eyeHeightM - 0.005)
  const typed = drawn(drawn(bowed).eyes.change(bowed, 1.25))
  expect(typed.eyesM).toBeCloseTo(1.25, 9)
  expect(typed.said).toBe('eye line 1.25')
  expect(typed.eyes.value).toBeCloseTo(1.25, 9)
  // At rest the document holds what is typed, to the last figure, and the ends of the range are no error.
  expect(drawn(first).eyes.change(first, 1.25).sitters[0].eyeHeightM).toBe(1.25)
  const [least] = drawn(bowed).eyes.range
  expect(drawn(bowed).eyes.change(bowed, least).sitters[0].eyeHeightM).toBe(0.5)
})
