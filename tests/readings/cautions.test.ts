import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting, type Sitting } from '../../src/sitting'
import { distance, type Vec3 } from '../../src/space'
import { lamp, setOf, take } from './set'

const fixed: Partial<Sitting> = { reExpose: 'nothing' }

test('cautions at the walls: a source beyond one, a canopy into one, a backdrop behind one or taller than the room', () => {
  const { room } = firstSitting()
  const beside = room.xM + room.widthM / 2
  const umbrella = defaultModifier('white-umbrella')
  const of = (x: number, backdrop: Sitting['backdrop'] = null) =>
    take(setOf([{ ...lamp('A'), modifier: umbrella, centreM: [x, 1.6, 0.5] }], { ...fixed, backdrop })).cautions
  const saying = (cautions: ReturnType<typeof of>, id: string) =>
    cautions.find((caution) => caution.id === id)?.sentence
  expect(saying(of(1), 'caution.A.walls')).toBeUndefined()
  expect(saying(of(beside - 0.1), 'caution.A.walls')).toMatch(/^A reaches .* into the wall/)
  expect(saying(of(beside + 0.5), 'caution.A.walls')).toMatch(/^A stands outside the room/)
  expect(saying(of(beside + 0.5), 'caution.A.stand')).toBeUndefined()
  const paper = { widthM: 2.72, heightM: 2.4, distanceM: 1.5, reflectance: [0.6, 0.6, 0.6] as const }
  const wall = room.depthM / 2 - room.zM
  const hung = (change: Partial<typeof paper>) =>
    of(1, { ...paper, ...change }).filter(({ id }) => id.startsWith('caution.backdrop'))
  expect(hung({})).toEqual([])
  const [behind] = hung({ distanceM: wall + 0.25 })
  expect(behind.id).toBe('caution.backdrop.wall')
  expect(behind.sentence).toContain('0.25 m behind the wall')
  expect(hung({ widthM: room.widthM + 0.6 }).map(({ id }) => id)).toEqual(['caution.backdrop.sides'])
  expect(hung({ heightM: room.heightM + 0.1 }).map(({ id }) => id)).toEqual(['caution.backdrop.ceiling'])
})

test('eyes that should be on the lens and do not reach it are told, and only these', () => {
  const of = (headTurnDeg: number, gaze: 'camera' | 'ahead') =>
    take(setOf([lamp('A')], { ...fixed, sitter: { headTurnDeg, gaze } })).cautions.find(({ id }) => /gaze$/.test(id))
  expect(of(20, 'camera')).toBeUndefined()
  expect(of(70, 'ahead')).toBeUndefined()
  expect(of(70, 'camera')).toMatchObject({
    id: 'caution.sitter.gaze',
    sentence: expect.stringMatching(/^The sitter cannot look at the lens .*: the eyes stop 35° round/),
  })
})

/** Limits: common practice in the trade, no source. */
test('a bare flash near the eyes, one over the head and one in the frame are told where they are, and nothing else is', () => {
  const small = { ...defaultModifier('dish'), diameterM: 0.1 }
  const of = (place: Parameters<typeof lamp>[1]) => {
    const source = lamp('A', { modifier: small, ...place })
    const told = new Map(take(setOf([source], fixed)).cautions.map((caution) => [caution.id, caution]))
    return (kind: string) => {
      const caution = told.get(`caution.A.${kind}`)
      return caution && { sentence: caution.sentence, offM: distance(caution.at!, source.centreM) }
    }
  }
  const near = of({ az: 30, el: 10, d: 0.8 })
  expect(near('eyes')!.sentence).toMatch(/^A is bare and 0\.[78]\d m from the eyes: no bare flash nearer than 1 m/)
  expect(near('eyes')!.offM).toBe(0)
  expect(of({ az: 30, el: 10, d: 1.3 })('eyes')).toBeUndefined()
  expect(of({ az: 30, el: 10, d: 0.8, modifier: defaultModifier('softbox') })('eyes')).toBeUndefined()
  // From behind the head it shines into no eye.
  expect(of({ az: 170, el: 10, d: 0.8 })('eyes')).toBeUndefined()

  expect(of({ az: 0, el: 85, d: 0.9 })('overhead')!.sentence).toMatch(
    /^A hangs over the sitter, 0\.\d\d m above the crown/,
  )
  expect(of({ az: 0, el: 85, d: 0.9 })('overhead')!.offM).toBeLessThan(0.2)
  expect(of({ az: 0, el: 40, d: 0.9 })('overhead')).toBeUndefined()

  // Beside the head, 0.25 m from the eyes: half of the frame there is 0.17 m wide; 0.1 m behind them it shows, beside it not.
  const shown = of({ az: 90, d: 0.16 })('inFrame')
  expect(shown!.sentence).toMatch(/^A is in the picture/)
  expect(shown!.offM).toBeLessThan(0.3)
  expect(of({ az: 90, d: 0.8 })('inFrame')).toBeUndefined()
})

test('a panel in the frame is told, one beside it, behind the sitter or behind the lens is not', () => {
  const panel = (centreM: Vec3, kind: 'white' | 'black' = 'white') => ({
    ...{ id: 'panel', kind, widthM: 0.6, heightM: 1, centreM, turnDeg: 90, tiltDeg: 0 },
  })
  const of = (one: ReturnType<typeof panel>) =>
    take(setOf([lamp('A')], { ...fixed, panels: [one] })).cautions.filter(({ id }) => /panel/.test(id))
  // 24 mm of sensor behind 105 mm: half of the frame is 12/105 of the way from the lens; the panel's far edge is 1.5 + 0.3 m off.
  const side = 1.8 * (12 / 105)
  expect(of(panel([side + 0.03, 1.2, 0]))).toEqual([])
  const [told] = of(panel([side - 0.03, 1.2, 0], 'black'))
  expect(told!.sentence).toBe('The black panel is in the picture: move it out, or step in.')
  expect(Math.abs(told!.at![0] - (side - 0.03))).toBeLessThan(1e-6)
  expect(of(panel([0, 1.2, 2.5]))).toEqual([])
  // One that is larger than the frame, with no edge of it in it, hides the sitter.
  expect(of({ ...panel([0, 1.2, 1]), turnDeg: 0, widthM: 2, heightM: 2 })).toHaveLength(1)
  expect(of({ ...panel([0, 1, -0.5]), turnDeg: 0, widthM: 0.1, heightM: 0.1 })).toEqual([])
})
