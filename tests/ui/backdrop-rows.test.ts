import { expect, test } from 'vitest'
import { drawPlan } from '../../src/paper'
import { assembleRig } from '../../src/rig'
import { firstSitting, type Sitting } from '../../src/sitting'
import type { NumberRow } from '../../src/ui/controls/model'
import { sheetOf } from '../../src/ui/controls/sheet'
import { STAND_IN } from '../rig/stand-in'

const row = (sitting: Sitting, id: string): NumberRow =>
  sheetOf({ sitting, marks: null, exposure: null }, 'backdrop')!
    .groups.flatMap(({ rows }) => rows)
    .find((each) => each.id === id) as NumberRow
const set = (sitting: Sitting, id: string, value: number) => row(sitting, id).change(sitting, value)
const words = (sitting: Sitting) =>
  JSON.stringify(
    drawPlan({ sitting, rig: assembleRig(sitting, { figure: STAND_IN }), units: 'metres', selected: null }),
  )

test('a paper is made coloured band by band; its grey changes all three by one factor, and the plan says coloured', () => {
  const grey = firstSitting()
  expect(words(grey)).toContain(', 60 %')
  const red = set(set(set(grey, 'red', 0.5), 'green', 0.06), 'blue', 0.05)
  expect(red.backdrop!.reflectance).toEqual([0.5, 0.06, 0.05])
  expect(words(red)).toContain('coloured')
  expect(words(red)).not.toMatch(/paper[^"]* \d+ %/)
  const darker = set(red, 'reflectance', 0.03)
  for (const [band, share] of [0.25, 0.03, 0.025].entries())
    expect(darker.backdrop!.reflectance[band]).toBeCloseTo(share, 12)
})
