/** How long a batch of sixteen samples takes, ms. */
export class BatchClock {
  private startedAt = 0
  /** Samples that there were when it was started; null: none have ever come. */
  private countedFrom: number | null = null

  /** The picture begins anew. */
  start(): void {
    this.startedAt = performance.now()
    if (this.countedFrom !== null) this.countedFrom = 0
  }

  /** It waited with so many samples: that time tells nothing. */
  pause(samples: number): void {
    this.startedAt = performance.now()
    if (this.countedFrom !== null) this.countedFrom = samples
  }

  /** So do its programs. */
  startCold(): void {
    this.countedFrom = null
  }

  /**
   * With so many samples there now; null: nothing to tell from. Programs are compiled before the very first samples: what
   * those took says nothing of the machine.
   */
  batchMs(samples: number): number | null {
    if (this.countedFrom === null && samples > 0) {
      this.countedFrom = samples
      this.startedAt = performance.now()
    }
    const counted = samples - (this.countedFrom ?? 0)
    return counted > 0 ? ((performance.now() - this.startedAt) / counted) * 16 : null
  }
}
