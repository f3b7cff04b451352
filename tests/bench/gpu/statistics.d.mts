export interface Spread {
  readonly count: number
  readonly median: number | null
  readonly p95: number | null
  readonly least: number | null
  readonly most: number | null
}
export function spreadOf(values: readonly number[]): Spread
export function crossing(curve: readonly { readonly x: number; readonly error: number }[], error: number): number | null
