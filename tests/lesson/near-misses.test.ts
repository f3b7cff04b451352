import { expect, test } from 'vitest'
import { changedSitting, judgeParts, type Lesson, sittingOf, type TryStep } from '../../src/lesson'
import { moveSource, problemSentence, type Sitting, swapModifier } from '../../src/sitting'
import { files, missedBy, open } from './shipped'

/** Sets that meet a goal of a shipped lesson but for one thing that its text asks for: each is judged not met, for that thing. */

const triesOf = ({ steps }: Lesson): readonly TryStep[] =>
  steps.flatMap((step) => (step.kind === 'try' && step.goal ? [step] : []))

function changed(sitting: Sitting, changes: Readonly<Record<string, unknown>>): Sitting {
  const result = changedSitting(sitting, changes, 'near miss')
  if ('problems' in result) throw new Error(result.problems.map(problemSentence).join(' '))
  return result.sitting
}

/** A hair of something that the goal does not look at by a reading. */
const A_HAIR: Readonly<Record<string, (sitting: Sitting) => Sitting>> = {
  camera: (sitting) => changed(sitting, { 'camera.iso': sitting.camera.iso * 2 }),
  room: (sitting) => changed(sitting, { 'room.heightM': sitting.room.heightM + 0.01 }),
  sitters: (sitting) => changed(sitting, { 'sitters[0].headTurnDeg': sitting.sitters[0].headTurnDeg + 1 }),
  reExpose: (sitting) => changed(sitting, { reExpose: sitting.reExpose === 'powers' ? 'f-number' : 'powers' }),
  'A.modifier': (sitting) => changed(sitting, { 'sources[0].modifier.bodyM': 0.31 }),
  'A.place': (sitting) => changed(sitting, { 'sources[0].aimM': [0, 1.171, 0.03] }),
  'A.power': (sitting) => changed(sitting, { 'sources[0].head.powerStops': -3.14 }),
  'A.lamp': (sitting) => changed(sitting, { 'sources[0].head.energyJ': 399 }),
}

test('where only some parts may be changed, no other part may, however little', () => {
  const restricted = files.flatMap((file) => {
    const lesson = open(file)
    return triesOf(lesson).flatMap((step) => (step.only ? [{ lesson, file, step, only: step.only }] : []))
  })
  expect(restricted.length).toBeGreaterThanOrEqual(15)
  for (const { lesson, file, step, only } of restricted) {
    const way = sittingOf(lesson, step.way!)!
    for (const [part, change] of Object.entries(A_HAIR)) {
      const isFree = only.some(
        (name) => name === part || part.startsWith(`${name}.`) || (name === 'sources' && part[1] === '.'),
      )
      const bare: TryStep = { ...step, goal: [] }
      expect(missedBy(lesson, file, bare, change(way)), `${file}, ${step.text}: ${part}`).toEqual(
        isFree ? [] : ['only'],
      )
    }
  }
})

interface Near {
  readonly file: string
  /** Place among the tries with a goal. */
  readonly at?: number
  readonly what: string
  /** The state that it is made from; left out: the one that meets the goal. */
  readonly state?: string
  readonly changes?: Readonly<Record<string, unknown>>
  readonly misses: readonly string[]
}

const OCTA = { kind: 'octa', depthM: 0.3, forwardShare: 0, inner: 'none', lipM: 0, grid: 'none', bodyM: 0.3 }
const NEAR: readonly Near[] = [
  {
    file: 'lessons/02',
    what: 'the edge by a larger box from where the first one stood',
    state: 'octa 60 cm at 1.5 m',
    changes: { 'sources[0].modifier': { ...OCTA, diameterM: 0.9 } },
    misses: ['only'],
  },
  {
    file: 'lessons/02',
    what: 'the distance, from another side',
    changes: { 'sources[0].centreM': [0.456, 1.738, 0.73] },
    misses: ['source.A.azimuthFromLens'],
  },
  {
    file: 'lessons/03',
    what: 'the dark backdrop by hanging it farther away',
    state: 'softbox at 1.2 m',
    changes: { 'backdrop.distanceM': 2.6 },
    misses: ['only'],
  },
  { file: 'lessons/03', what: 'half of the way', state: 'softbox at 1.2 m', misses: ['backdrop.stops'] },
  {
    file: 'lessons/05',
    what: 'f/8 by the ISO',
    state: 'two stops too bright',
    changes: { 'camera.iso': 25 },
    misses: ['only'],
  },
  {
    file: 'lessons/08',
    what: 'short, but turned so far that the pattern goes',
    state: 'turned to the light',
    misses: ['face.pattern'],
  },
  {
    file: 'lessons/09',
    what: 'no glasses, no glare',
    state: 'raised',
    misses: ['source.A.glare.left', 'source.A.glare.right'],
  },
  {
    file: 'lessons/09',
    what: 'clear glasses, and a lamp so high that the eyes are dead',
    state: 'overhead',
    changes: { 'sitters[0].glasses': { tiltDeg: 8, frontCurveD: 4, coated: false, frame: 'dark' } },
    misses: ['source.A.catchlight.left.height', 'source.A.catchlight.right.height'],
  },
  {
    file: 'lessons/09',
    what: 'so near that the box stands in the picture',
    changes: { 'sources[0].centreM': [0.19, 1.53, 0.47] },
    misses: ['caution.A.inFrame'],
  },
  {
    file: 'lessons/10',
    what: 'key to fill three to one, which is highlight to shadow four to one',
    changes: { 'sources[1].head.powerStops': -3.38 },
    misses: ['ratio.highlightShadow'],
  },
  { file: 'lessons/12', what: 'even and white, but it wraps', state: 'two backdrop lamps', misses: ['backdrop.wrap'] },
  {
    file: 'lessons/12',
    what: 'white by sheer power',
    state: 'by sheer power',
    misses: ['backdrop.stops', 'backdrop.wrap'],
  },
  {
    file: 'lessons/13',
    what: 'no grid: it shines into the lens',
    state: 'hair light, bare dish',
    misses: ['source.B.flare'],
  },
  { file: 'lessons/13', what: 'switched off', changes: { 'sources[1].on': false }, misses: ['source.B.alone'] },
  {
    file: 'lessons/15',
    what: 'built without the panel',
    changes: { panels: [] },
    misses: ['ratio.nearFar'],
  },
  {
    file: 'lessons/15',
    what: 'half a stop too strong',
    changes: { 'sources[0].head.powerStops': -2 },
    misses: ['source.A.alone'],
  },
  {
    file: 'faults/angle',
    what: 'by turning the head',
    state: 'as found',
    changes: { 'sitters[0].headTurnDeg': 0 },
    misses: ['only'],
  },
  {
    file: 'faults/glare',
    what: 'higher, but with no pattern by name on the face',
    changes: { 'sources[0].centreM': [0.382, 1.58, 1.176] },
    misses: ['face.pattern'],
  },
  {
    file: 'faults/grey',
    what: 'white paper, and a key that became hard',
    changes: {
      'sources[0].modifier': { kind: 'dish', diameterM: 0.18, grid: 'none', bodyM: 0.3 },
      'sources[0].head.powerStops': -4.5,
    },
    misses: ['edge.A.nose.full'],
  },
  { file: 'faults/hair', what: 'switched off', changes: { 'sources[1].on': false }, misses: ['source.B.alone'] },
  {
    file: 'faults/hard',
    what: 'by a larger box',
    state: 'as found',
    changes: { 'sources[0].modifier.widthM': 2, 'sources[0].modifier.heightM': 2 },
    misses: ['only'],
  },
  {
    file: 'faults/shadow',
    what: 'by moving the lamp',
    state: 'as found',
    changes: { 'sources[0].centreM': [1.6, 1.9, 0.7] },
    misses: ['only'],
  },
  {
    file: 'faults/two',
    what: 'one lamp alone: nearly two stops',
    state: 'as found',
    changes: { 'sources[1].on': false },
    misses: ['ratio.nearFar'],
  },
  {
    file: 'faults/umbrella',
    what: 'so far out that light goes past',
    changes: { 'sources[0].modifier.shaftM': 0.8 },
    misses: ['source.A.shaft.spill'],
  },
  {
    file: 'faults/white',
    what: 'half of the way down',
    changes: { 'sources[1].head.powerStops': -1.2, 'sources[2].head.powerStops': -1.2 },
    misses: ['backdrop.stops'],
  },
]

test.each(NEAR)('$file: $what', ({ file: beginning, at = 0, state, changes = {}, misses }) => {
  const file = files.find((name) => name.includes(beginning))!
  const lesson = open(file)
  const step = triesOf(lesson)[at]!
  const own = changed(sittingOf(lesson, state ?? step.way!)!, changes)
  expect(missedBy(lesson, file, step, own)).toEqual(misses)
})

test('a swapped modifier is one change, whatever went with the old one', () => {
  const lesson = open(files[0]!)
  const [source] = lesson.start.sources
  const from: Sitting = {
    ...lesson.start,
    sources: [{ ...source!, modifierKg: 1.2 }, ...lesson.start.sources.slice(1)],
  }
  const own = swapModifier(from, source!.id, 'octa')
  expect(judgeParts([`${source!.letter}.modifier`], from, own).words).toBe('met')
  const moved = moveSource(own, source!.id, [1, 2, 1])
  expect(judgeParts([`${source!.letter}.modifier`], from, moved).words).toContain('place changed too')
})
