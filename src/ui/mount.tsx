import { createRoot } from 'react-dom/client'
import './look/index.css'
import { App } from './app'
import { watchAddress } from './carry/link'
import { startDeriving } from './derive'
import { shareKit } from './kit/kit-tabs'
import { keepOffline } from './offline/offline'
import { Renewed } from './renewed'
import { allWritten, heedOtherTabs, keepDesk, restoreDesk } from './storage'

/** Puts the page into an element, with what lay on the desk last time. */
export async function mount(element: HTMLElement): Promise<void> {
  await restoreDesk()
  keepDesk()
  heedOtherTabs()
  shareKit()
  // A page that is closed or put away writes what its quiet time still held back.
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) void allWritten().catch(() => undefined)
  })
  tellHand()
  startDeriving()
  watchAddress()
  createRoot(element).render(
    <Renewed>
      <App />
    </Renewed>,
  )
  keepOffline()
}

/** Whether the hand is at the keys, for the ring of what has the focus: a word that a press gave it back to has none. */
function tellHand(): void {
  const { dataset } = document.documentElement
  for (const kind of ['pointerdown', 'keydown'] as const)
    window.addEventListener(
      kind,
      () => {
        dataset.hand = kind
      },
      { capture: true },
    )
}
