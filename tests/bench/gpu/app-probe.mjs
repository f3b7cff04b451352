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
  // The page tells of a picture when it finds it drawn, mostly in the next frame. A fence of our own says when the card was
  // done: set as soon as the page's listeners have run, one at a time, and asked for whenever the thread is free.
  const fences = []
  const channel = new MessageChannel()
  channel.port1.onmessage = () => {
    const { gl, sync } = fences.at(-1)
    if (gl.getSyncParameter(sync, gl.SYNC_STATUS) !== gl.SIGNALED) return channel.port2.postMessage(null)
    fences.at(-1).drawnAt = performance.now()
    gl.deleteSync(sync)
  }
  window.addEventListener('pointermove', () => {
    const gl = document.querySelector('canvas[role=img]')?.getContext('webgl2')
    if (!gl || fences.at(-1)?.drawnAt === null) return
    fences.push({ gl, sync: gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0), setAt: performance.now(), drawnAt: null })
    gl.flush()
    channel.port2.postMessage(null)
  })
  const drawnAfter = (summedAtMs) => fences.find(({ setAt }) => setAt >= summedAtMs)?.drawnAt
  window.addEventListener('picture', ({ detail: { rig: _, ...told } }) => {
    const now = performance.now()
    log.pictures.push({ ...told, at: Math.min(now, drawnAfter(told.summedAtMs) ?? now) })
  })
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) log.longTasks.push({ at: startTime, duration })
  }).observe({ type: 'longtask', buffered: true })
  const frame = (at) => {
    log.frames.push(at)
    requestAnimationFrame(frame)
  }
  requestAnimationFrame(frame)
}
