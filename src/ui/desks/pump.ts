/** Work between two looks at the post, ms. */
const SLICE_MS = 30

export const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve))

/** Runs steps to their end and lets messages in now and then; null as soon as `superseded` says that nobody waits for them. */
export async function pump<T>(steps: Generator<unknown, T>, superseded: () => boolean): Promise<T | null> {
  for (;;) {
    const end = performance.now() + SLICE_MS
    while (performance.now() < end) {
      const step = steps.next()
      if (step.done) return step.value
    }
    await breath()
    if (superseded()) return null
  }
}
