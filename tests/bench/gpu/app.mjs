/** Measures the built page as a person meets it: loading, then dragging a lamp and turning the head on the plan. */

import { probe } from './app-probe.mjs'
import { openPage } from './host.mjs'
import { spreadOf } from './statistics.mjs'

const VIEWPORT = { width: 1440, height: 900 }
const FIRST_SAMPLES = 16
/** Between two moves of the hand, ms: about what a mouse at 60 moves a second gives. */
const MOVE_MS = 16
/** A drag moves on a figure of this size about where it began, CSS pixels. */
const REACH_PX = 60

const sleep = (ms) => new Promise((resolve) => setTimeout(resolve, ms))
const finished = () => document.body.textContent.includes('finished, 512 samples')
const lastMoveShown = (least) => {
  const { moves, pictures } = window.probe
  const picture = pictures.at(-1)
  return picture.changedAtMs >= moves.at(-1).seenAt && picture.samples >= least
}
const canvasSize = () => {
  const { width, height } = document.querySelector('canvas[role=img]')
  return { width, height }
}

/** The page in a browser profile of its own, up to its first picture; from the start of navigation, ms. */
async function load(browser, url) {
  const opened = await openPage(browser, null, VIEWPORT)
  await opened.page.addInitScript(probe)
  await opened.page.goto(url)
  await opened.page.waitForFunction(
    (least) => window.probe.pictures.some(({ samples }) => samples >= least),
    FIRST_SAMPLES,
  )
  const firstPictureMs = await opened.page.evaluate(
    (least) => window.probe.pictures.find(({ samples }) => samples >= least).at,
    FIRST_SAMPLES,
  )
  return { ...opened, firstPictureMs }
}

async function settle(page, seconds) {
  try {
    await page.waitForFunction(finished, null, { timeout: seconds * 1000 })
    return await page.evaluate(() => window.probe.pictures.at(-1).at)
  } catch {
    return null
  }
}

/** Takes a handle of the plan by the mouse and moves it to and fro, then holds still. */
async function drag(page, target, moves, patienceSeconds) {
  const grip = page.getByRole('region', { name: 'Plan' }).locator(`[data-target="${target}"] .grip`)
  const box = await grip.boundingBox()
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  const start = await page.evaluate(() => performance.now())
  for (let move = 1; move <= moves; move++) {
    const angle = (2 * Math.PI * move) / 60
    await page.mouse.move(x + REACH_PX * Math.sin(angle), y + (REACH_PX / 2) * (1 - Math.cos(angle)))
    await sleep(MOVE_MS)
  }
  const end = await page.evaluate(() => performance.now())
  await page.waitForFunction(lastMoveShown, FIRST_SAMPLES, { timeout: patienceSeconds * 1000 }).catch(() => {})
  await page.mouse.up()
  const log = await page.evaluate(() => window.probe)
  return { ...measuresOf(log, start, end), canvas: await page.evaluate(canvasSize) }
}

/** The first picture of a change made by this move or a later one, with its first samples; null: none came. */
function pictureAfter(move, pictures) {
  return pictures.find(
    ({ at, changedAtMs, samples }) => at > move.at && changedAtMs >= move.seenAt && samples >= FIRST_SAMPLES,
  )
}

function measuresOf(log, start, end) {
  const within = ({ at }) => at >= start && at <= end
  const moves = log.moves.filter(within)
  const pictured = moves.map((move) => ({ move, picture: pictureAfter(move, log.pictures) }))
  const answered = pictured.filter(({ picture }) => picture)
  const frameAfter = (at) => log.frames.find((frame) => frame > at) ?? at
  const drawn = log.pictures.filter(within)
  const frames = log.frames.filter((at) => at >= start && at <= end)
  const gaps = frames.slice(1).map((at, i) => at - frames[i])
  const longTasks = log.longTasks.filter(within)
  return {
    seconds: (end - start) / 1000,
    moves: moves.length,
    movesWithoutPicture: moves.length - answered.length,
    changesShown: new Set(drawn.map(({ changedAtMs }) => changedAtMs)).size,
    moveToDrawnMs: spreadOf(answered.map(({ move, picture }) => picture.at - move.at)),
    moveToNextFrameMs: spreadOf(answered.map(({ move, picture }) => frameAfter(picture.at) - move.at)),
    moveToListenersMs: spreadOf(moves.map(({ at, seenAt }) => seenAt - at)),
    frameGapMs: spreadOf(gaps),
    longTasks: {
      count: longTasks.length,
      longestMs: Math.max(0, ...longTasks.map(({ duration }) => duration)),
      shareOfTime: longTasks.reduce((sum, { duration }) => sum + duration, 0) / (end - start),
    },
  }
}

function tell(name, { moves, changesShown, moveToDrawnMs: { median, p95 }, frameGapMs, longTasks }) {
  const ms = (value) => value?.toFixed(1) ?? 'no'
  console.log(
    `  ${name}: ${ms(median)} ms to its picture, p95 ${ms(p95)}; ${changesShown} shown of ${moves} moves; ` +
      `frames ${ms(frameGapMs.median)} ms apart, p95 ${ms(frameGapMs.p95)}; ${longTasks.count} long tasks, ` +
      `longest ${ms(longTasks.longestMs)} ms`,
  )
}

/** loads: fresh profiles; the first meets a browser that has compiled nothing. */
export async function measureApp(browser, url, { loads, moves, settleSeconds }) {
  const firstPicturesMs = []
  let opened = null
  for (let visit = 0; visit < loads; visit++) {
    await opened?.close()
    opened = await load(browser, url)
    firstPicturesMs.push(opened.firstPictureMs)
    console.log(`  load ${visit + 1}: first picture after ${opened.firstPictureMs.toFixed(0)} ms`)
  }
  const { page, close } = opened
  const settledMs = await settle(page, settleSeconds)
  const canvas = await page.evaluate(canvasSize)
  console.log(`  settled after ${settledMs?.toFixed(0) ?? 'more than the wait'} ms, ${canvas.width} × ${canvas.height}`)
  const loadTasks = await page.evaluate(() => window.probe.longTasks.map(({ duration }) => duration))
  const lamp = await drag(page, 'source key', moves, settleSeconds)
  tell('lamp dragged', lamp)
  await settle(page, settleSeconds)
  const head = await drag(page, 'nose sitter', moves, settleSeconds)
  tell('head turned', head)
  await close()
  const longestTaskWhileLoadingMs = Math.max(0, ...loadTasks)
  return { viewport: VIEWPORT, canvas, firstPicturesMs, settledMs, longestTaskWhileLoadingMs, lamp, head }
}
