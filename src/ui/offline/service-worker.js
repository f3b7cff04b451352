/*
 * Keeps every file of one build on the device and answers from there, so that the page works without a network. A new build
 * waits until the page asks for it. The build fills in the two names below.
 */
const VERSION = '__VERSION__'
const FILES = __FILES__
const PREFIX = 'halfshade-files-'
/** The build before stays, for pages still open that have yet to load a part of it. */
const BUILDS_KEPT = 2

self.addEventListener('install', (event) => {
  const requests = FILES.map((file) => new Request(file, { cache: 'no-cache' }))
  event.waitUntil(caches.open(PREFIX + VERSION).then((cache) => cache.addAll(requests)))
})

self.addEventListener('activate', (event) => {
  const settle = async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== PREFIX + VERSION)
    await Promise.all(names.slice(0, Math.max(0, names.length - BUILDS_KEPT + 1)).map((name) => caches.delete(name)))
    await self.clients.claim()
  }
  event.waitUntil(settle())
})

self.addEventListener('fetch', (event) => {
  const { request } = event
  if (request.method !== 'GET' || !request.url.startsWith(self.registration.scope)) return
  const answer = async () => {
    const own = await caches.open(PREFIX + VERSION)
    const kept =
      request.mode === 'navigate'
        ? await own.match('./index.html')
        : ((await own.match(request, { ignoreSearch: true })) ?? (await caches.match(request, { ignoreSearch: true })))
    return kept ?? fetch(request)
  }
  event.respondWith(answer())
})

self.addEventListener('message', (event) => {
  if (event.data === 'update') self.skipWaiting()
})
