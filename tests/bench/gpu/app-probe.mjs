/**
 * Runs in the built page before its own scripts: notes when the hand moved, when a picture was drawn and of which change
 * of the set, how even the frames are and how long the page's thread was held up. All times as performance.now(), ms.
 */
export function probe() {
  const log = { moves: [], pictures: [], frames: [], longTasks: [] }
  window.probe = log
  // timeStamp: when the browser got the move. seenAt: when its listeners begin; the page's own come after this one.
  window.addEventListener(
    'pointermove',
    (event) => log.moves.push({ at: event.timeStamp, seenAt: performance.now() }),
    { capture: true },
  )
  window.addEventListener('picture', ({ detail }) => log.pictures.push({ at: performance.now(), ...detail }))
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) log.longTasks.push({ at: startTime, duration })
  }).observe({ type: 'longtask', buffered: true })
  const frame = (at) => {
    log.frames.push(at)
    requestAnimationFrame(frame)
  }
  requestAnimationFrame(frame)
}
