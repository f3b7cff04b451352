import { create } from 'zustand'
import { allWritten } from '../storage'
import { setSession } from '../store'

/** Whether the page can be used without a network, and whether a newer one waits. */
export type Offline =
  | { readonly kind: 'checking' }
  | { readonly kind: 'ready' }
  | { readonly kind: 'update'; readonly waiting: ServiceWorker }
  /** Why not, in words. */
  | { readonly kind: 'none'; readonly why: string }

export const useOffline = create<{ readonly offline: Offline }>(() => ({ offline: { kind: 'checking' } }))
const tell = (offline: Offline): void => useOffline.setState({ offline })

/** The first picture goes first, ms. */
const AFTER_MS = 3000

/** Has the browser keep the page's files, once the page is at work. Only as built: in development there is nothing to keep. */
export function keepOffline(): void {
  if (!import.meta.env.PROD) return
  const { serviceWorker } = navigator
  if (!serviceWorker) {
    tell({ kind: 'none', why: 'this address is not secure: serve the page over https, or from this machine' })
    return
  }
  setTimeout(() => {
    serviceWorker
      .register('./sw.js')
      .then(watch, (error: unknown) =>
        tell({ kind: 'none', why: error instanceof Error ? error.message : String(error) }),
      )
  }, AFTER_MS)
}

function watch(registration: ServiceWorkerRegistration | undefined): void {
  if (!registration) return
  const look = () => {
    if (registration.waiting && registration.active) tell({ kind: 'update', waiting: registration.waiting })
    else if (registration.active) tell({ kind: 'ready' })
  }
  const follow = () => registration.installing?.addEventListener('statechange', look)
  registration.addEventListener('updatefound', follow)
  follow()
  look()
}

/** Takes the newer page, once what was changed last is kept; the page loads anew with it. Where the device refuses, it stays and says so. */
export async function update(waiting: ServiceWorker): Promise<void> {
  try {
    await allWritten()
  } catch (error) {
    const got = error instanceof Error ? error.message : String(error)
    const advice = 'Save the sitting as a file, then close the page and open it again.'
    setSession({
      notice: {
        title: 'The newer version was not taken: this device does not keep what you changed.',
        problems: [{ path: 'store of this browser', expected: 'room for your work', got, advice }],
      },
    })
    return
  }
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload())
  waiting.postMessage('update')
}

/** A word of the bar, there only while a newer page waits. */
export function UpdateWord() {
  const offline = useOffline((state) => state.offline)
  if (offline.kind !== 'update') return null
  return (
    <button type="button" className="word" onClick={() => void update(offline.waiting)}>
      update
    </button>
  )
}
