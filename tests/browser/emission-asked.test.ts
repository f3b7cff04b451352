import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Comparison, RECORDS } from '../photometry/profiles/check'
import { UNMETERED } from '../rig/alone'
import { type OpenPage, openPage } from './harness'

/**
 * Records of shared/emission-values.json that are light at places, asked of the picture's probes as the meter is asked in
 * tests/meter/emission-values.test.ts. Set A, the losses of set B, X and edges have tests of their own beside this one. Two in the
 * usual run; all of them take minutes: AGREEMENT=all.
 */
let open: OpenPage
beforeAll(async () => {
  open = await openPage('emission.page.ts')
})
afterAll(() => open?.close())

const ELSEWHERE = /^EMIT-(A-|X$|EDGE-CLOSE$|PANEL)/
const USUAL = ['EMIT-BOX-E', 'EMIT-MB']
/** Asked of the faces themselves, not of places. */
const OF_FACES = /route|spill|hot centre|lit diameter|moment diameter|edge|flux kept/
const SAMPLES = 256

const asked = RECORDS.map(({ id }) => id).filter((id) => !UNMETERED.test(id) && !ELSEWHERE.test(id))

test('those of the usual run are among them', () => {
  expect(asked).toEqual(expect.arrayContaining(USUAL))
  expect(asked.length).toBe(30)
})

test.each(process.env.AGREEMENT === 'all' ? asked : USUAL)('%s', async (id) => {
  const all = (await open.page.evaluate(`tested.compared('${id}', ${SAMPLES})`)) as Comparison[]
  const compared = all.filter(({ what }) => !OF_FACES.test(what))
  expect(compared.length).toBeGreaterThan(0)
  expect(compared.filter(({ got, expected, tolerance }) => !(Math.abs(got - expected) <= tolerance))).toEqual([])
})
