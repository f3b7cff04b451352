/**
 * Beside the page's thread, by the name that the page gave: 'light' reads the light and bounces it, 'picture' draws,
 * 'contact' does both for the contact sheet, while it is open. Orders that come before their desk has loaded wait in turn.
 */
const waiting: MessageEvent[] = []
self.onmessage = (event) => waiting.push(event)

/** Out of the promise, so that the page's onerror hears of it. */
const complain = (error: unknown) =>
  setTimeout(() => {
    throw error
  })

const DESKS: Readonly<Record<string, () => Promise<{ take(order: never): void }>>> = {
  light: () => import('./desks/reading-worker'),
  picture: () => import('./picture/picture-worker'),
  contact: () => import('./contact/contact-worker'),
}
DESKS[self.name]!().then(({ take }) => {
  self.onmessage = ({ data }) => take(data as never)
  for (const { data } of waiting)
    try {
      take(data as never)
    } catch (error) {
      complain(error)
    }
}, complain)
