import { create } from 'zustand'

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
/** What changed last is written to the device by then, ms. */
const WRITTEN_MS = 800

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

/** Takes the newer page, once what was changed last is kept; the page loads anew with it. */
export function update(waiting: ServiceWorker): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload())
  setTimeout(() => waiting.postMessage('update'), WRITTEN_MS)
}

/** A word of the bar, there only while a newer page waits. */
export function UpdateWord() {
  const offline = useOffline((state) => state.offline)
  if (offline.kind !== 'update') return null
  return (
    <button type="button" className="word" onClick={() => update(offline.waiting)}>
      update
    </button>
  )
}
