/** solve: a goal in, the edits that reach it out, or the reason why it can't be had. */

import { dialStop } from '../words'
import { beyond, dialsNow, dialWords, setDials } from './dials'
import { moved, refusal, solveFNumber } from './exposure'
import { stageFor } from './lights'
import {
  solveBackdrop,
  solveCheeks,
  solveHair,
  solveHighlightShadow,
  solveKeyFill,
  solveTone,
  solveToneByDistance,
} from './ratios'
import type { Answer, Goal, SolveInput } from './types'

export { applyEdits } from './apply'
export type { Answer, Goal, SolveEdit, SolveInput, SolveScene, Way } from './types'
export { TONES } from './types'
export { ASKED_FOR, goalFrom } from './words'

const STOPS = [-12, 12] as const

/** Why a goal cannot even be asked for; null: it can. */
function badGoal(goal: Goal): string | null {
  const within = (value: number, [low, high]: readonly [number, number], what: string): string | null =>
    value >= low && value <= high
      ? null
      : `${what}: expected ${low} to ${high}, got ${value}. Ask for a number in that range.`
  if ('fNumber' in goal) return within(goal.fNumber, [0.7, 128], 'f-number')
  if ('stops' in goal) return within(goal.stops, STOPS, 'stops')
  return 'ratio' in goal ? within(goal.ratio, [1, 4097], 'ratio') : null
}

/** Never alters the sitting: the answer's edits do, by `applyEdits`. */
export function solve(input: SolveInput, goal: Goal): Answer {
  const bad = badGoal(goal)
  if (bad) return refusal(bad)
  const stage = stageFor(input, input.sitting, input.scene)
  if (!stage.key) return refusal('no source is on: there is nothing to solve for.')
  switch (goal.kind) {
    case 'f-number':
      return solveFNumber(input, stage, goal.fNumber)
    case 'f-number by distance':
      return byDistance(input, stage, goal)
    case 'fill under key':
      return solveKeyFill(stage, goal.stops)
    case 'highlight over shadow':
      return solveHighlightShadow(stage, goal.ratio)
    case 'far cheek under near':
      return solveCheeks(stage, goal.stops)
    case 'backdrop over face':
      return solveBackdrop(stage, goal.stops)
    case 'backdrop tone':
      return solveTone(stage, goal.tone)
    case 'backdrop tone by distance':
      return solveToneByDistance(input, stage, goal.tone)
    case 'hair light':
      return solveHair(stage, goal.stops)
  }
}

function byDistance(
  input: SolveInput,
  stage: ReturnType<typeof stageFor>,
  { sourceId, fNumber }: Extract<Goal, { kind: 'f-number by distance' }>,
): Answer {
  const source = stage.sitting.sources.find(({ id }) => id === sourceId)
  if (!source?.on) return refusal('that source is not on, or not in this sitting.')
  if (stage.scene.rig.sources.find(({ id }) => id === sourceId)?.remote)
    return refusal(`${source.letter} is so far off that no distance changes its light.`)
  const dials = dialsNow(stage)
  const [worst] = beyond(stage, dials)
  if (worst)
    return refusal(`${worst.source.letter} cannot give the power that is shown: ask for the f-number by power first.`)
  const [way] = moved(input, stage, dials, fNumber, sourceId)
  return way
    ? {
        way,
        sentence: `${way.words} for ${dialStop(fNumber)}, powers as they are.`,
        powers: dialWords(stage, setDials(stage, dials).dials),
        others: [],
      }
    : refusal(
        `from 0.30 to 8 m no place on this line gives ${dialStop(fNumber)} at these powers: change the power, or its side.`,
      )
}
