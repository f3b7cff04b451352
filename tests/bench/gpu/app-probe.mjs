/**
 * What is noted while the built page is used: when the hand moved, when a picture was drawn and of which change of the set,
 * how even the frames are and how long the page's thread was held up. All times in ms of the page's performance.now().
 */

/** Opens no page: readies one that is about to open. */
export async function addProbes(page) {
  await page.addInitScript(pageProbe)
  // A worker that has gone again by then is none of ours.
  page.on('worker', (worker) => worker.evaluate(cardProbe).catch(() => {}))
}

/** What has been noted so far. */
export async function readProbes(page) {
  const log = await page.evaluate(() => ({ ...window.probe, origin: performance.timeOrigin }))
  const fences = (await Promise.all(page.workers().map((worker) => worker.evaluate(() => self.fences ?? [])))).flat()
  const drawnAfter = (summedAtMs) => fences.find(({ setAt }) => setAt - log.origin >= summedAtMs)?.drawnAt
  const pictures = log.pictures.map(({ askedAtMs, samples, summedAtMs, drawnAtMs }) => {
    const drawnAt = drawnAfter(summedAtMs)
    return {
      changedAtMs: askedAtMs,
      samples,
      summedAtMs,
      at: Math.min(drawnAtMs, drawnAt ? drawnAt - log.origin : drawnAtMs),
    }
  })
  return { ...log, pictures }
}

/** Runs in the page before its own scripts. */
function pageProbe() {
  const log = { moves: [], plans: [], pictures: [], frames: [], longTasks: [] }
  window.probe = log
  // timeStamp: when the browser got the move. seenAt: when its listeners begin; the page's own come after this one. Each is
  // told at once and again when the next frame begins.
  let last = ''
  for (const kind of ['pointerrawupdate', 'pointermove'])
    window.addEventListener(
      kind,
      ({ timeStamp, clientX, clientY }) => {
        const place = `${clientX} ${clientY}`
        if (place !== last) log.moves.push({ at: timeStamp, seenAt: performance.now() })
        last = place
      },
      { capture: true },
    )
  window.addEventListener('picture', ({ detail: { askedAtMs, samples, summedAtMs, drawnAtMs, copy } }) => {
    if (!copy) log.pictures.push({ askedAtMs, samples, summedAtMs, drawnAtMs })
  })
  // Told once all changes of a task are made: the plan as it stands in the next frame.
  const planned = new MutationObserver((changes) => {
    if (changes.some(({ target }) => target.closest?.('.plan'))) log.plans.push(performance.now())
  })
  addEventListener('DOMContentLoaded', () =>
    planned.observe(document.body, { subtree: true, childList: true, attributes: true }),
  )
  new PerformanceObserver((list) => {
    for (const { startTime, duration } of list.getEntries()) log.longTasks.push({ at: startTime, duration })
  }).observe({ type: 'longtask', buffered: true })
  const frame = (at) => {
    log.frames.push(at)
    requestAnimationFrame(frame)
  }
  requestAnimationFrame(frame)
}

/**
 * Runs in the thread that draws, which finds a picture drawn in its next frame only. A fence of our own says when the card
 * was done: set after each task that drew, one at a time, and asked for whenever the thread is free.
 */
function cardProbe() {
  self.fences = []
  const now = () => performance.timeOrigin + performance.now()
  const { port1, port2 } = new MessageChannel()
  let gl = null
  let open = null
  port1.onmessage = () => {
    if (!open) {
      open = { sync: gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0), setAt: now() }
      gl.flush()
    }
    if (gl.getSyncParameter(open.sync, gl.SYNC_STATUS) !== gl.SIGNALED) return port2.postMessage(null)
    self.fences.push({ setAt: open.setAt, drawnAt: now() })
    gl.deleteSync(open.sync)
    open = gl = null
  }
  for (const name of ['drawArrays', 'drawElements']) {
    const draw = WebGL2RenderingContext.prototype[name]
    WebGL2RenderingContext.prototype[name] = function (...order) {
      draw.apply(this, order)
      if (gl) return
      gl = this
      port2.postMessage(null)
    }
  }
}
