import type { Exposure } from './stage'
import { type ReadingsInput, type ReadingsOutput, readingSteps, takeExposure } from './take-readings'

/** Paths of bounced light at each place until readings count as settled: page and commands go by it, so that they say the same. */
export const SETTLED_PATHS = 1024
/** Of one pass; after each there is an answer to show. */
export const PASS_PATHS = 256

/**
 * Readings with so many paths at each place, traced in passes: steps as readingSteps has them, and the answer of each pass but
 * the last on the way. The same input gives the same answer, however its steps are spread. 0 paths: direct light alone.
 */
export function* settledSteps(
  input: Omit<ReadingsInput, 'paths' | 'indirect'>,
  paths = SETTLED_PATHS,
): Generator<ReadingsOutput | undefined, ReadingsOutput> {
  let output = yield* readingSteps({ ...input, paths: Math.min(paths, PASS_PATHS) })
  for (let left = paths - PASS_PATHS; left > 0; left -= PASS_PATHS) {
    yield output
    output = yield* readingSteps({ ...input, paths: Math.min(left, PASS_PATHS), indirect: output.indirect })
  }
  return output
}

/** The answer of settledSteps at once. */
export function takeSettledReadings(...input: Parameters<typeof settledSteps>): ReadingsOutput {
  const steps = settledSteps(...input)
  for (let step = steps.next(); ; step = steps.next()) if (step.done) return step.value
}

/** The exposure of takeSettledReadings, without the light of all other places. */
export function takeSettledExposure(...[input, paths = SETTLED_PATHS]: Parameters<typeof settledSteps>): Exposure {
  let output = takeExposure({ ...input, paths: Math.min(paths, PASS_PATHS) })
  for (let left = paths - PASS_PATHS; left > 0; left -= PASS_PATHS)
    output = takeExposure({ ...input, paths: Math.min(left, PASS_PATHS), indirect: output.indirect })
  return output.exposure
}
