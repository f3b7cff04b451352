/**
 * Beside the page's thread, twice, by the name that the page gave: 'light' reads the light and bounces it, 'picture'
 * draws. Orders that come before their desk has loaded wait in turn.
 */
const waiting: MessageEvent[] = []
self.onmessage = (event) => waiting.push(event)

/** Out of the promise, so that the page's onerror hears of it. */
const complain = (error: unknown) =>
  setTimeout(() => {
    throw error
  })

const desk = self.name === 'picture' ? import('./picture/picture-worker') : import('./desks/reading-worker')
desk.then(({ take }) => {
  self.onmessage = ({ data }) => take(data)
  for (const { data } of waiting)
    try {
      take(data)
    } catch (error) {
      complain(error)
    }
}, complain)
