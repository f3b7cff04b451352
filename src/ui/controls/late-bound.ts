import type { Quantity } from '../values'

/**
 * What is seen of a value, as text: its data, and of a quantity how the value beside it reads in both units. Functions
 * are left out.
 */
export function seenOf(value: object): string {
  return JSON.stringify(value, function (this: { readonly value: number }, key, part) {
    if (key !== 'quantity') return part
    const { step, format } = part as Quantity
    return [step, format(this.value, 'metres'), format(this.value, 'feet')]
  })
}

/**
 * The same value with the same data, whose functions are, whenever they are called, those at the same place of what
 * `now` gives.
 */
export function lateBound<T>(value: T, now: () => T): T {
  if (typeof value === 'function')
    return ((...given: readonly unknown[]) => (now() as (...given: readonly unknown[]) => unknown)(...given)) as T
  if (typeof value !== 'object' || value === null) return value
  const bound = Object.entries(value).map(([key, part]) => [key, lateBound(part, () => now()[key as keyof T])])
  return (Array.isArray(value) ? bound.map(([, part]) => part) : Object.fromEntries(bound)) as T
}
