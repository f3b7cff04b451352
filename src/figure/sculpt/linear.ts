/** Solves the square system in place by Gaussian elimination with partial pivoting; returns the right-hand side's array. */
export function solveLinear(matrix: Float64Array, right: Float64Array): Float64Array {
  const n = right.length
  for (let i = 0; i < n; i++) {
    swapRows(matrix, right, i, pivotRow(matrix, n, i))
    const inverse = 1 / matrix[i * n + i]
    for (let r = i + 1; r < n; r++) {
      const factor = matrix[r * n + i] * inverse
      if (factor === 0) continue
      for (let c = i; c < n; c++) matrix[r * n + c] -= factor * matrix[i * n + c]
      right[r] -= factor * right[i]
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = right[i]
    for (let c = i + 1; c < n; c++) sum -= matrix[i * n + c] * right[c]
    right[i] = sum / matrix[i * n + i]
  }
  return right
}

function pivotRow(matrix: Float64Array, n: number, column: number): number {
  let best = column
  for (let r = column + 1; r < n; r++)
    if (Math.abs(matrix[r * n + column]) > Math.abs(matrix[best * n + column])) best = r
  return best
}

function swapRows(matrix: Float64Array, right: Float64Array, a: number, b: number): void {
  if (a === b) return
  const n = right.length
  const row = matrix.slice(a * n, a * n + n)
  matrix.copyWithin(a * n, b * n, b * n + n)
  matrix.set(row, b * n)
  ;[right[a], right[b]] = [right[b], right[a]]
}
