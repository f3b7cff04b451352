/** Does something in a turn of its own, after the messages that wait already and no sooner than afterMs; asked for twice before, once. */
export class Soon {
  private readonly ends = new MessageChannel()
  private isAsked = false

  constructor(
    act: () => void,
    private readonly afterMs = 0,
  ) {
    this.ends.port1.onmessage = () => {
      this.isAsked = false
      act()
    }
  }

  soon(): void {
    if (this.isAsked) return
    this.isAsked = true
    const post = () => this.ends.port2.postMessage(null)
    if (this.afterMs > 0) setTimeout(post, this.afterMs)
    else post()
  }
}
