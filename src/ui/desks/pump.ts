/** Work between two looks at the post, ms. */
const SLICE_MS = 30

export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve))

/**
 * Runs steps to their end and lets messages in now and then; null as soon as `superseded` says that nobody waits for them.
 * `partial` gets what steps give on the way.
 */
export async function pump<T, P>(
  steps: Generator<P | undefined, T>,
  superseded: () => boolean,
  partial: (given: P) => void = () => undefined,
): Promise<T | null> {
  for (;;) {
    const end = performance.now() + SLICE_MS
    while (performance.now() < end) {
      const step = steps.next()
      if (step.done) return step.value
      if (step.value !== undefined) partial(step.value)
    }
    await breath()
    if (superseded()) return null
  }
}
