/** How often each directed edge occurs, its groups of joined triangles, and Euler's V − E + F. */
export function topology(indices: Uint32Array, n: number) {
  const edges = new Map<number, number>()
  const group = Int32Array.from({ length: n }, (_, i) => i)
  const root = (i: number): number => {
    let r = i
    while (group[r] !== r) {
      group[r] = group[group[r]]
      r = group[r]
    }
    return r
  }
  for (let t = 0; t < indices.length; t += 3)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [indices[t + k], indices[t + ((k + 1) % 3)]]
      edges.set(a * n + b, (edges.get(a * n + b) ?? 0) + 1)
      group[root(a)] = root(b)
    }
  const used = new Set(indices)
  const unpaired = [...edges].filter(
    ([key, count]) => count !== 1 || edges.get((key % n) * n + Math.floor(key / n)) !== 1,
  )
  return {
    unpaired: unpaired.length,
    components: new Set([...used].map(root)).size,
    euler: used.size - edges.size / 2 + indices.length / 3,
    /** Directed edges that occur more or less often than the same edge the other way: where a surface is open. */
    open: [...edges].filter(([key, count]) => edges.get((key % n) * n + Math.floor(key / n)) !== count).length,
    unused: n - used.size,
  }
}
