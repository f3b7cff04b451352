import { validateModifier } from '../gear'
import { degrees, distance, length, subtract, type Vec3 } from '../space'
import { problemsOfGels } from './gel'
import { problemsOfMeterPlace } from './meter-rules'
import { problemsOfMirrors } from './mirror-rule'
import { type Problem, shown } from './problems'
import type { Sitting, Source } from './types'

/**
 * What a schema cannot say: rules between fields. Run only on a document whose fields are each right (S2).
 * `at` is the path of the sitting inside the file, with its dot: '' or 'takes[0].sitting.'.
 */
export function problemsOfRules(sitting: Omit<Sitting, 'takes'>, at = ''): Problem[] {
  return [
    ...idsAreUnique(sitting, at),
    ...lettersAreUnique(sitting, at),
    ...sitting.sources.flatMap((source, i) => problemsOfSource(source, `${at}sources[${i}]`)),
    ...cameraLooksSomewhere(sitting, at),
    ...sitting.meterPlaces.flatMap((place, i) => problemsOfMeterPlace(sitting, place, `${at}meterPlaces[${i}]`)),
    ...firstSitterAtOrigin(sitting, at),
    ...problemsOfMirrors(sitting, at),
  ]
}

/** S11. */
export function problemsOfTakes(sitting: Sitting): Problem[] {
  const names = repeated(
    sitting.takes.map((take, i) => ({ value: take.name, path: `takes[${i}].name` })),
    'S11',
    'a name that no other take has',
    'Rename one of the two takes.',
  )
  const inside = sitting.takes.flatMap((take, i) => {
    const path = `takes[${i}].sitting`
    const nested = 'takes' in take.sitting
    return [
      ...(nested
        ? [
            {
              rule: 'S11' as const,
              path: `${path}.takes`,
              expected: 'no takes inside a take',
              got: 'takes',
              advice: 'Remove this field.',
            },
          ]
        : []),
      ...problemsOfRules(take.sitting, `${path}.`),
    ]
  })
  return [...names, ...inside]
}

interface Named {
  readonly value: string
  readonly path: string
}

function repeated(entries: readonly Named[], rule: Problem['rule'], expected: string, advice: string): Problem[] {
  const first = new Map<string, string>()
  return entries.flatMap(({ value, path }) => {
    const earlier = first.get(value)
    if (earlier === undefined) {
      first.set(value, path)
      return []
    }
    return [{ rule, path, expected, got: `${shown(value)}, as in ${earlier}`, advice }]
  })
}

const LISTS = ['sitters', 'sources', 'panels', 'objects', 'meterPlaces'] as const

const idsAreUnique = (sitting: Omit<Sitting, 'takes'>, at: string): Problem[] =>
  repeated(
    LISTS.flatMap((list) => sitting[list].map(({ id }, i) => ({ value: id, path: `${at}${list}[${i}].id` }))),
    'S4',
    'an id that no other thing has',
    'Give one of the two another id.',
  )

const lettersAreUnique = (sitting: Omit<Sitting, 'takes'>, at: string): Problem[] =>
  repeated(
    sitting.sources.map(({ letter }, i) => ({ value: letter, path: `${at}sources[${i}].letter` })),
    'S5',
    'a letter that no other source has',
    'Give one of the two another letter.',
  )

function problemsOfSource(source: Source, path: string): Problem[] {
  const { powerStops, lowestStops } = source.head
  const tooLow: Problem[] =
    powerStops < lowestStops
      ? [
          {
            rule: 'S10',
            path: `${path}.head.powerStops`,
            expected: `${lowestStops} to 0 stops, what this dial reaches`,
            got: shown(powerStops),
            advice: 'Raise the power, or correct lowestStops to what the head can do.',
          },
        ]
      : []
  return [
    ...problemsOfModifier(source, path),
    ...tooLow,
    ...problemsOfGels(source.head, `${path}.head`),
    ...aimIsApart(source.centreM, source.aimM, `${path}.aimM`),
  ]
}

const problemsOfModifier = (source: Source, path: string): Problem[] =>
  validateModifier(source.modifier, `${path}.modifier`).map((found) => ({ rule: 'S6', ...found }))

/** Shortest distance between a thing and what it is aimed at, metres: shorter, and the direction is noise. */
const LEAST_AIM_M = 0.01

function aimIsApart(from: Vec3, aim: Vec3, path: string): Problem[] {
  const gap = distance(from, aim)
  if (gap >= LEAST_AIM_M) return []
  return [
    {
      rule: 'S7',
      path,
      expected: `a point at least ${LEAST_AIM_M} m away from what is aimed`,
      got: `${shown(aim)}, ${gap.toFixed(4)} m away`,
      advice: 'Move the aim point to where it should look.',
    },
  ]
}

/** From the vertical, degrees. Nearer, and "azimuth from the lens axis" has no meaning seen from above. */
const LEAST_FROM_VERTICAL_DEG = 1

function cameraLooksSomewhere(sitting: Omit<Sitting, 'takes'>, at: string): Problem[] {
  const { positionM, aimM } = sitting.camera
  const apart = aimIsApart(positionM, aimM, `${at}camera.aimM`)
  if (apart.length > 0) return apart
  const look = subtract(aimM, positionM)
  const fromVertical = degrees(Math.asin(Math.min(1, Math.hypot(look[0], look[2]) / length(look))))
  if (fromVertical >= LEAST_FROM_VERTICAL_DEG) return []
  return [
    {
      rule: 'S7',
      path: `${at}camera.aimM`,
      expected: `a direction at least ${LEAST_FROM_VERTICAL_DEG}° away from straight up or down`,
      got: `${fromVertical.toFixed(2)}°`,
      advice: 'Move the camera or its aim to the side.',
    },
  ]
}

function firstSitterAtOrigin(sitting: Omit<Sitting, 'takes'>, at: string): Problem[] {
  const [first] = sitting.sitters
  if (first && first.xM === 0 && first.zM === 0) return []
  return [
    {
      rule: 'S9',
      path: `${at}sitters[0]`,
      expected: 'a first sitter at xM 0, zM 0: the set is measured from there',
      got: first ? `xM ${first.xM}, zM ${first.zM}` : 'no sitter',
      advice: 'Put the first sitter at 0, 0 and move the set instead.',
    },
  ]
}
