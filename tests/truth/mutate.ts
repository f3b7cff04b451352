import type { Source } from '../../src/commands/truth/binding'

/** The exports that a run of bindings touched, by name. */
export function recording(source: Source): { readonly source: Source; readonly used: ReadonlySet<string> } {
  const used = new Set<string>()
  const proxy = new Proxy(source, {
    get: (target, name: string) => {
      used.add(name)
      return target[name as keyof Source]
    },
  })
  return { source: proxy, used }
}

/** The source with one export off by a factor: a function's result, or a constant, every number in it. */
export function scaled(source: Source, name: string, factor: number): Source {
  const original: unknown = source[name as keyof Source]
  const changed =
    typeof original === 'function'
      ? (...args: unknown[]) => scaleNumbers(original(...args), factor)
      : scaleNumbers(original, factor)
  return { ...source, [name]: changed }
}

function scaleNumbers(value: unknown, factor: number): unknown {
  if (typeof value === 'number') return value * factor
  if (Array.isArray(value)) return value.map((item) => scaleNumbers(item, factor))
  if (typeof value === 'object' && value !== null)
    return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, scaleNumbers(item, factor)]))
  return value
}
