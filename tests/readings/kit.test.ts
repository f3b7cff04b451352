import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readKit, takeHead, takeModifier, takeStand } from '../../src/kit'
import { applyEdits } from '../../src/readings'
import type { Sitting } from '../../src/sitting'
import { ask, MAIN } from './ask'
import { EYE_M, lamp, setOf, stopsBetween, take } from './set'

const read = readKit(readFileSync('scenes/evening-class.kit.json', 'utf8'))
const kit = 'kit' in read ? read.kit : null!
const onKit = (at: Parameters<typeof lamp>[1], standId: string, modifierId = 'box-60'): Sitting => {
  const set = setOf([lamp('A', at)], { reExpose: 'nothing' })
  const headed = takeModifier(takeHead(set, 'source-A', kit, 'head-200'), 'source-A', kit, modifierId)
  return takeStand(headed, 'source-A', kit, standId)
}

test("the solver keeps to the dial of the kit's head: its steps, its lowest, its way of writing", () => {
  const set = onKit({ az: 40, el: 20, d: 1.3 }, 'medium', 'white-95')
  const f = take(set).value(MAIN)
  const { way, powers } = ask(set, { kind: 'f-number', fNumber: f / 2 ** 0.27 })
  const power = way!.edits.find((edit) => edit.kind === 'power')!
  // Tenths, 6 at full, 1 a stop: half a stop and a bit down lies on a tenth.
  expect(power.kind === 'power' && Math.abs(10 * power.powerStops - Math.round(10 * power.powerStops))).toBeLessThan(
    1e-9,
  )
  const dial = power.kind === 'power' ? 6 + power.powerStops : 0
  expect(powers[0]).toBe(`A ${dial.toFixed(1)}, ${Math.round(200 * 2 ** (dial - 6))} J`)
  expect(Math.abs(stopsBetween(f / 2 ** 0.27, take(applyEdits(set, way!.edits)).value(MAIN)))).toBeLessThan(0.05)
  // 5 stops from full to lowest: far beyond them it says what the lowest, 1.0, gives.
  expect(ask(set, { kind: 'f-number', fNumber: f / 3 }).sentence).toMatch(/A at its lowest, 1\.0, still gives/)
  expect(take(set).of('source.A.power').sentence).toMatch(/200 J head|its lowest, 1\.0/)
})

const told = (sitting: Sitting, id: string) => take(sitting).cautions.find((caution) => caution.id === id)?.sentence

test('a stand that does not go so high, or does not carry so much, is told with the figures; one that does is not', () => {
  const high = onKit({ az: 40, el: 60, d: 1.7 }, 'medium')
  expect(told(high, 'caution.A.standHeight')).toMatch(
    /medium stand goes to 2\.40 m: lower it by 0\.\d\d m, or take a higher/,
  )
  const fits = onKit({ az: 40, el: 20, d: 1.3 }, 'medium')
  expect(told(fits, 'caution.A.standHeight')).toBeUndefined()
  expect(told(fits, 'caution.A.standLoad')).toBeUndefined()
  // 1.3 kg and 1.4 kg: 2.7 kg on a boom for 2.5.
  expect(told(onKit({ az: 40, el: 20, d: 1.3 }, 'boom'), 'caution.A.standLoad')).toMatch(
    /A weighs 2\.7 kg and boom carries 2\.5 kg at the tip/,
  )
})

test('over the sitter: the counterweight by the law of the lever, 2.5 kg at 1.5 m being 7.5 kg at 0.5 m', () => {
  const set = onKit({ az: 0, el: 85, d: 0.9 }, 'boom', 'white-95')
  const heavy: Sitting = {
    ...set,
    sources: set.sources.map((source) => ({ ...source, head: { ...source.head, massKg: 2 }, aimM: [0, EYE_M, 0] })),
  }
  expect(told(heavy, 'caution.A.overhead')).toMatch(
    /boom of boom, 7\.5 kg at 0\.50 m for 2\.5 kg at 1\.50 m, bag it, and tie/,
  )
  expect(told(onKit({ az: 0, el: 85, d: 0.9 }, 'medium'), 'caution.A.overhead')).toMatch(/medium stand has no boom/)
})
