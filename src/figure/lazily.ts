/** What is made when it is first asked for, and kept. */
export function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

type Makers<T> = { readonly [K in keyof T]?: () => T[K] }

/** The record with fields that are made when they are first asked for; those that it has already so stay so. */
export function lazily<T extends object>(record: Partial<T>, makers: Makers<T>): T {
  const fields = Object.entries(makers).map(([name, make]) => [
    name,
    { get: once(make as () => unknown), enumerable: true, configurable: true },
  ])
  return Object.defineProperties({} as T, {
    ...Object.getOwnPropertyDescriptors(record),
    ...Object.fromEntries(fields),
  })
}
