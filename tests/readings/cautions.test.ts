import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { firstSitting, type Sitting } from '../../src/sitting'
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
