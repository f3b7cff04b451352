import { spawnSync } from 'node:child_process'
import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting, type MeterPlace, type Sitting, type Source } from '../../src/sitting'
import { EYE_M, lamp, setOf, stopsBetween } from '../readings/set'
import { answer, told, withFile } from './told'

/**
 * Checks of trade.md §4.4 as its reader can make them: 1 to 4, 8, 10, 13 and 16; the others: trust.test.ts; 15, on the plan: tests/paper.
 */
const fixed: Partial<Sitting> = { reExpose: 'nothing' }
/** Beside the sitter, with nothing between it and a lamp in front. */
const FREE = [0.8, EYE_M, 0.5] as const
const meter = (id: string, at: MeterPlace['at'], rest: Partial<MeterPlace> = {}): MeterPlace => ({
  ...{ id, name: id, at, receptor: 'disc', facing: 'light' },
  ...rest,
})
/** One lamp, and a disc to it at each distance straight before it. */
async function along(distances: readonly number[], rest: Partial<Source> = {}): Promise<readonly number[]> {
  const centreM = [FREE[0], FREE[1], FREE[2] + 2.2] as const
  const places = distances.map((d) => meter(`at${d}`, { pointM: [FREE[0], FREE[1], centreM[2] - d] }))
  const { value } = await told(setOf([{ ...lamp('A', rest), centreM, aimM: FREE }], { ...fixed, meterPlaces: places }))
  return distances.map((d) => value(`place.at${d}`))
}

test('1: a bare small source, 1 to 2 m = −2.0 stops, 1 to 1.4 m = −1.0', async () => {
  const [one, root2, two] = (await along([1, Math.SQRT2, 2])) as [number, number, number]
  // A disc 0.18 m wide is 0.012 stop under the point law at 1 m.
  expect(Math.abs(stopsBetween(one, two) + 2)).toBeLessThan(0.03)
  expect(Math.abs(stopsBetween(one, root2) + 1)).toBeLessThan(0.03)
})

test('2: a matt disc 0.9 m wide, 0.45 to 0.9 m: −1.3 to −1.4, not −2', async () => {
  const modifier = { ...defaultModifier('octa'), diameterM: 0.9 }
  const [near, far] = (await along([0.45, 0.9], { modifier })) as [number, number]
  // E = πL·R²/(R² + d²): −1.32; a box's cloth is brighter in the middle, and falls a little slower.
  expect(stopsBetween(near, far)).toBeLessThan(-1.25)
  expect(stopsBetween(near, far)).toBeGreaterThan(-1.45)
})

test('3: two equal lights on one point +1.0; one 2 stops down +0.32', async () => {
  const camera = { ...firstSitting().camera, positionM: [FREE[0], EYE_M, 2.9] as const }
  const aside = (letter: string, x: number, stops = 0): Source => {
    const source = { ...lamp(letter), centreM: [FREE[0] + x, EYE_M, 2.4] as const, aimM: FREE }
    return { ...source, head: { ...source.head, powerStops: source.head.powerStops + stops } }
  }
  const gain = async (down: number) => {
    const both = meter('both', { pointM: FREE }, { facing: 'lens' })
    const meterPlaces = [both, { ...both, id: 'one', name: 'one', sourceIds: ['source-A'] }]
    const { value } = await told(setOf([aside('A', 0.6), aside('B', -0.6, down)], { ...fixed, camera, meterPlaces }))
    return stopsBetween(value('place.one'), value('place.both'))
  }
  // Exposures add: log₂ 2 and log₂ 1.25.
  expect(Math.abs((await gain(0)) - 1)).toBeLessThan(0.01)
  expect(Math.abs((await gain(-2)) - 0.32)).toBeLessThan(0.01)
})

test('4: an on-axis fill 1 stop down: highlight : shadow 3.0', async () => {
  const key = lamp('A', { az: 40, el: 20, d: 2.2 })
  const fill = lamp('B', { az: 0, el: 20, d: 2.2, role: 'fill' })
  const down = { ...fill, head: { ...fill.head, powerStops: key.head.powerStops - 1 } }
  const { value } = await told(setOf([key, down]))
  // The cheek stands some centimetres nearer to the key than to the fill.
  expect(Math.abs(value('ratio.highlightShadow') - 3)).toBeLessThan(0.15)
})

test('8: a white card beside a grey one, in one light: log₂(0.88/0.18) = 2.29 stops', async () => {
  const cards = [
    { id: 'white', reflectance: 0.88, x: -0.2 },
    { id: 'grey', reflectance: 0.18, x: 0.2 },
  ]
  const { value } = await told(
    // Square to both, so that each card meets the lamp at one angle.
    setOf([lamp('A', { az: 0, el: 30, d: 2.2 })], {
      ...fixed,
      objects: cards.map(({ id, reflectance, x }) => ({
        ...{ id, kind: 'card' as const, centreM: [x, 1.1, 0.1] as const, widthM: 0.1, heightM: 0.1 },
        ...{ turnDeg: 0, tiltDeg: 0, reflectance },
      })),
      meterPlaces: cards.map(({ id, x }) =>
        meter(`on-${id}`, { pointM: [x, 1.1, 0.101] }, { receptor: 'spot', facing: 'lens' }),
      ),
    }),
  )
  expect(Math.abs(stopsBetween(value('place.on-grey'), value('place.on-white')) - 2.29)).toBeLessThan(0.01)
})

test('10: only the head turns 20°: another pattern, the same light on the cheek', async () => {
  const at = (headTurnDeg: number) =>
    told(setOf([lamp('A', { az: 50, el: 40, d: 1.5 })], { ...fixed, sitter: { headTurnDeg } }))
  const [ahead, turned] = [await at(0), await at(20)]
  expect([ahead.of('face.pattern').value, turned.of('face.pattern').value]).toEqual(['Rembrandt', 'loop'])
  const id = 'exposure.nearCheek.disc.light'
  expect(Math.abs(stopsBetween(ahead.value(id), turned.value(id)))).toBeLessThan(0.2)
})

test('13: the dome to the camera under a 45° key reads 0.2 to 0.3 below the disc to the light', async () => {
  const { value } = await told(setOf([lamp('A', { az: 45, d: 2.4 })]))
  const stops = stopsBetween(value('exposure.nearCheek.disc.light'), value('exposure.nearCheek.dome.lens'))
  expect(stops).toBeLessThan(-0.18)
  expect(stops).toBeGreaterThan(-0.32)
})

test('16: the same set read twice gives the same numbers, and by the command in a process of its own', async () => {
  const one = await told(firstSitting(), 64)
  const { status, stdout } = await withFile(firstSitting(), (file) =>
    spawnSync('npm', ['run', '--silent', 'readings', '--', file, '--json', '--paths', '64'], { encoding: 'utf8' }),
  )
  expect(status).toBe(0)
  const again = answer(stdout)
  for (const same of ['exposure.nearCheek.disc.light', 'edge.A.nose.depth', 'ratio.nearFar', 'source.A.share'])
    expect(again.of(same), same).toEqual(one.of(same))
}, 120_000)
