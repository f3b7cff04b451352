/** Best of several runs in processor time of this thread: on a busy machine the best run is the one least disturbed. */
export function milliseconds(work: () => void, runs = 5): number {
  let best = Number.POSITIVE_INFINITY
  for (let run = 0; run < runs; run++) {
    const start = process.cpuUsage()
    work()
    const { user, system } = process.cpuUsage(start)
    best = Math.min(best, (user + system) / 1000)
  }
  return best
}

export function row(name: string, value: number, unit: string, note = ''): void {
  console.log(`${name.padEnd(58)} ${value.toPrecision(3).padStart(8)} ${unit.padEnd(8)} ${note}`)
}
