/** What re-exposure made of the powers of the set that was read last, and the one question that waits for that of a later set. */
export class WeighedSet {
  private known: { readonly set: number; readonly factorStops: number } | null = null
  private waiting: { readonly set: number; ask(factorStops: number): void } | null = null

  /** Asks once that set, by its count, or a later one is known: at once where it is. An earlier question that still waits is dropped. */
  when(set: number, ask: (factorStops: number) => void): void {
    this.waiting = { set, ask }
    this.go()
  }

  know(set: number, factorStops: number): void {
    this.known = { set, factorStops }
    this.go()
  }

  private go(): void {
    const { known, waiting } = this
    if (!known || !waiting || known.set < waiting.set) return
    this.waiting = null
    waiting.ask(known.factorStops)
  }
}
