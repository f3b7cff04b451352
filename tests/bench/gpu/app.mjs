/** Measures the built page as a person meets it: loading, then dragging a lamp and turning the head on the plan. */

import { addProbes, readProbes } from './app-probe.mjs'
import { openPage } from './host.mjs'
import { spreadOf } from './statistics.mjs'

/** Of a laptop; and one in which the print has about as many pixels as 1280 × 960. */
const VIEWPORTS = { laptop: { width: 1440, height: 900 }, large: { width: 2560, height: 1440 } }
const FIRST_SAMPLES = 16
/** Between two moves of the hand, ms: a mouse at 250 moves a second. The page gets the newest once a frame. */
const MOVE_MS = 4
/** Moves to once round the figure. */
const ROUND = 240
/** A drag moves on a figure of this size about where it began, CSS pixels. */
const REACH_PX = 60

const sleep = (ms) => new Promise((resolve) => setTimeout(resolve, ms))
const finished = () => document.body.textContent.includes('finished')
const lastMoveShown = (least) => {
  const { moves, pictures } = window.probe
  const picture = pictures.at(-1)
  return picture.askedAtMs >= moves.at(-1).seenAt && picture.samples >= least
}
const canvasSize = () => {
  const { width, height } = document.querySelector('canvas[role=img]')
  return { width, height }
}

/** The page in a browser profile of its own, up to its first picture; from the start of navigation, ms. */
async function load(browser, url, viewport) {
  const opened = await openPage(browser, null, viewport)
  await addProbes(opened.page)
  await opened.page.goto(url)
  await opened.page.waitForFunction(
    (least) => window.probe.pictures.some(({ samples }) => samples >= least),
    FIRST_SAMPLES,
  )
  const { pictures } = await readProbes(opened.page)
  const firstPictureMs = pictures.find(({ samples }) => samples >= FIRST_SAMPLES).at
  return { ...opened, firstPictureMs }
}

async function settle(page, seconds) {
  try {
    await page.waitForFunction(finished, null, { timeout: seconds * 1000 })
    return (await readProbes(page)).pictures.at(-1).at
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
  const underWay = []
  for (let move = 1; move <= moves; move++) {
    const angle = (2 * Math.PI * move) / ROUND
    // Not awaited: a hand doesn't wait for the page.
    underWay.push(page.mouse.move(x + REACH_PX * Math.sin(angle), y + (REACH_PX / 2) * (1 - Math.cos(angle))))
    await sleep(MOVE_MS)
  }
  await Promise.all(underWay)
  const end = await page.evaluate(() => performance.now())
  await page.waitForFunction(lastMoveShown, FIRST_SAMPLES, { timeout: patienceSeconds * 1000 }).catch(() => {})
  await page.mouse.up()
  const log = await readProbes(page)
  return { ...measuresOf(log, start, end), canvas: await page.evaluate(canvasSize) }
}

/** The first picture of a change made by this move or a later one, with its first samples; null: none came. */
function pictureAfter(move, pictures) {
  return pictures.find(
    ({ at, changedAtMs, samples }) => at > move.at && changedAtMs >= move.seenAt && samples >= FIRST_SAMPLES,
  )
}

/** Each picture's first showing, with the move that it shows: several moves come to a frame, and the newest is drawn. */
function shownMoves(moves, pictures) {
  const firsts = pictures.filter(
    ({ changedAtMs, samples }, i) =>
      samples >= FIRST_SAMPLES && pictures.findIndex((other) => other.changedAtMs === changedAtMs) === i,
  )
  return firsts.flatMap((picture) => {
    const move = moves.findLast(({ seenAt }) => seenAt <= picture.changedAtMs)
    return move ? [{ move, picture }] : []
  })
}

function measuresOf(log, start, end) {
  const within = ({ at }) => at >= start && at <= end
  const moves = log.moves.filter(within)
  const pictured = moves.map((move) => ({ move, picture: pictureAfter(move, log.pictures) }))
  const answered = pictured.filter(({ picture }) => picture)
  const frameAfter = (at) => log.frames.find((frame) => frame > at) ?? at
  const planAfter = (seenAt) => log.plans.find((at) => at >= seenAt)
  // Of the moves of a frame the page takes up the first.
  const taken = moves.filter(
    ({ seenAt }, i) => i === 0 || log.frames.some((at) => at > moves[i - 1].seenAt && at <= seenAt),
  )
  const planned = taken.filter(({ seenAt }) => planAfter(seenAt))
  const drawn = log.pictures.filter(within)
  const frames = log.frames.filter((at) => at >= start && at <= end)
  const gaps = frames.slice(1).map((at, i) => at - frames[i])
  const longTasks = log.longTasks.filter(within)
  return {
    seconds: (end - start) / 1000,
    moves: moves.length,
    movesWithoutPicture: moves.length - answered.length,
    changesShown: new Set(drawn.map(({ changedAtMs }) => changedAtMs)).size,
    shownMoveToDrawnMs: spreadOf(shownMoves(moves, drawn).map(({ move, picture }) => picture.at - move.at)),
    heardToDrawnMs: spreadOf(shownMoves(moves, drawn).map(({ move, picture }) => picture.at - move.seenAt)),
    moveToDrawnMs: spreadOf(answered.map(({ move, picture }) => picture.at - move.at)),
    moveToNextFrameMs: spreadOf(answered.map(({ move, picture }) => frameAfter(picture.at) - move.at)),
    moveToPlanMs: spreadOf(planned.map(({ at, seenAt }) => planAfter(seenAt) - at)),
    moveToListenersMs: spreadOf(moves.map(({ at, seenAt }) => seenAt - at)),
    frameGapMs: spreadOf(gaps),
    longTasks: {
      count: longTasks.length,
      longestMs: Math.max(0, ...longTasks.map(({ duration }) => duration)),
      shareOfTime: longTasks.reduce((sum, { duration }) => sum + duration, 0) / (end - start),
    },
  }
}

function tell(name, measures) {
  const {
    moves,
    changesShown,
    moveToPlanMs,
    shownMoveToDrawnMs,
    heardToDrawnMs,
    moveToDrawnMs,
    frameGapMs,
    longTasks,
  } = measures
  const ms = (value) => value?.toFixed(1) ?? 'no'
  const both = ({ median, p95 }) => `${ms(median)} ms, p95 ${ms(p95)}`
  console.log(
    `  ${name}: move to the plan ${both(moveToPlanMs)}, to its picture ${both(shownMoveToDrawnMs)}, from when the page hears of it ${both(heardToDrawnMs)}; ` +
      `any move to the next picture ${both(moveToDrawnMs)}; ${changesShown} shown of ${moves} moves; ` +
      `frames apart ${both(frameGapMs)}; ${longTasks.count} long tasks, longest ${ms(longTasks.longestMs)} ms`,
  )
}

/** loads: fresh profiles at the laptop's size; the first meets a browser that has compiled nothing. */
export async function measureApp(browser, url, { loads, moves, settleSeconds }) {
  const firstPicturesMs = []
  for (let visit = 1; visit < loads; visit++) {
    const { firstPictureMs, close } = await load(browser, url, VIEWPORTS.laptop)
    await close()
    firstPicturesMs.push(firstPictureMs)
    console.log(`  load ${visit}: first picture after ${firstPictureMs.toFixed(0)} ms`)
  }
  const laptop = await measureWindow(browser, url, VIEWPORTS.laptop, { moves, settleSeconds })
  const large = await measureWindow(browser, url, VIEWPORTS.large, { moves, settleSeconds })
  return { firstPicturesMs, laptop, large }
}

/** One window: its first picture, its finished one, a lamp dragged and a head turned. */
async function measureWindow(browser, url, viewport, { moves, settleSeconds }) {
  const { page, close, firstPictureMs } = await load(browser, url, viewport)
  const settledMs = await settle(page, settleSeconds)
  const canvas = await page.evaluate(canvasSize)
  console.log(
    `  window ${viewport.width} × ${viewport.height}, picture ${canvas.width} × ${canvas.height}: ` +
      `first after ${firstPictureMs.toFixed(0)} ms, settled after ${settledMs?.toFixed(0) ?? 'more than the wait'} ms`,
  )
  const loadTasks = await page.evaluate(() => window.probe.longTasks.map(({ duration }) => duration))
  const lamp = await drag(page, 'source key', moves, settleSeconds)
  tell('lamp dragged', lamp)
  await settle(page, settleSeconds)
  const head = await drag(page, 'nose sitter', moves, settleSeconds)
  tell('head turned', head)
  await close()
  const longestTaskWhileLoadingMs = Math.max(0, ...loadTasks)
  return { viewport, canvas, firstPictureMs, settledMs, longestTaskWhileLoadingMs, lamp, head }
}
