/** Does something in a turn of its own, after the messages that wait already; asked for twice before, once. */
export class Soon {
  private readonly ends = new MessageChannel()
  private isAsked = false

  constructor(act: () => void) {
    this.ends.port1.onmessage = () => {
      this.isAsked = false
      act()
    }
  }

  soon(): void {
    if (this.isAsked) return
    this.isAsked = true
    this.ends.port2.postMessage(null)
  }
}
