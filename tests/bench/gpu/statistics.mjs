/**
 * Of a list of figures: how many, the middle, the one that 95 of 100 stay below, the extremes (null of none).
 * Plain JavaScript, as both the pages and the scripts that drive them use it.
 * @param {readonly number[]} values
 */
export function spreadOf(values) {
  const sorted = [...values].sort((a, b) => a - b)
  const at = (share) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? null
  return { count: sorted.length, median: at(0.5), p95: at(0.95), least: at(0), most: at(1) }
}

/**
 * Where a falling curve of (x, error) first meets an error, on a line between two points of log x and log error; null
 * where it never does.
 * @param {readonly { readonly x: number, readonly error: number }[]} curve
 * @param {number} error
 */
export function crossing(curve, error) {
  const after = curve.findIndex((point) => point.error <= error)
  if (after < 0) return null
  if (after === 0) return curve[0].x
  const [a, b] = [curve[after - 1], curve[after]]
  const share = Math.log(a.error / error) / Math.log(a.error / b.error)
  return a.x * (b.x / a.x) ** share
}
