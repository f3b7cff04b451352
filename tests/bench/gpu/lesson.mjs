/** Goes through a lesson of the built page as a class does, and measures how long each step's pictures take after the press that asks for them. */

import { openPage } from './host.mjs'

const VIEWPORT = { width: 1440, height: 900 }
/** A class sees at most three changes a second, so the page takes no press sooner, ms. */
const BETWEEN_MS = 450

/** Runs in the page before its own scripts: when a key or button was pressed last, ms of performance.now(). */
function pressProbe() {
  const note = () => {
    window.pressedAt = performance.now()
  }
  for (const kind of ['keydown', 'pointerdown']) window.addEventListener(kind, note, { capture: true })
}

/** Runs in the page: waits frame by frame for the step's pictures; from the press, ms. null: the step has none. */
async function picturesOf(patienceMs) {
  const from = window.pressedAt
  const seen = { sets: 0, firstPictureMs: null, allPicturesMs: null, numbersMs: null, finishedMs: null }
  const frame = () => new Promise((resolve) => requestAnimationFrame(resolve))
  await frame()
  while (performance.now() - from < patienceMs) {
    const row = document.querySelector('.lesson-pictures')
    if (!row) return null
    const canvases = [...row.querySelectorAll('canvas')]
    const drawn = canvases.filter((canvas) => canvas.getAttribute('aria-label').startsWith('picture: '))
    const blanks = [...row.querySelectorAll('li dd .blank')].filter((blank) => !blank.ariaLabel.startsWith('hidden'))
    const now = performance.now() - from
    seen.sets = row.children.length
    if (drawn.length > 0) seen.firstPictureMs ??= now
    if (drawn.length === canvases.length) seen.allPicturesMs ??= now
    if (blanks.length === 0) seen.numbersMs ??= now
    if (row.dataset.drawn === 'finished') {
      seen.finishedMs = now
      break
    }
    await frame()
  }
  return seen
}

/** Some answer: what is asked for by choice, number or angle. */
async function answer(page) {
  const radio = page.getByRole('radio').first()
  const field = page.locator('.question .field')
  if (await radio.count()) await radio.press(' ')
  else if (await field.count()) await field.fill('20')
  else await page.getByRole('slider').last().press('ArrowRight')
  await page.keyboard.press('Enter')
}

/** lesson: its place in the course. patienceSeconds: how long a step's pictures are waited for. */
export async function measureLesson(browser, url, { lesson, patienceSeconds }) {
  const { page, close } = await openPage(browser, null, VIEWPORT)
  await page.addInitScript(pressProbe)
  await page.goto(url)
  await page.getByRole('button', { name: 'lessons', exact: true }).press('Enter')
  await page.getByRole('button', { name: new RegExp(`^${lesson} `) }).press('Enter')
  await page.locator('.lesson-foot').waitFor()
  const steps = page.getByRole('navigation', { name: 'Steps of the lesson' }).getByRole('button')
  const presses = []
  const note = async (asked) => {
    const seen = await page.evaluate(picturesOf, patienceSeconds * 1000)
    if (!seen) return
    presses.push({ asked, ...seen })
    const ms = (value) => (value === null ? 'never' : `${value.toFixed(0)} ms`)
    console.log(
      `  ${asked}: all ${seen.sets} drawn after ${ms(seen.allPicturesMs)}, finished after ${ms(seen.finishedMs)}`,
    )
  }
  const count = await steps.count()
  for (let i = 0; i < count; i++) {
    const kind = await steps.nth(i).textContent()
    await note(`step ${i + 1}, ${kind}`)
    if (kind === 'predict') {
      await answer(page)
      await note(`step ${i + 1}, answered`)
    }
    if (i === count - 1) break
    await page.waitForTimeout(BETWEEN_MS)
    await page.keyboard.press('PageDown')
    await steps
      .nth(i + 1)
      .and(page.locator('[aria-current=step]'))
      .waitFor()
  }
  await close()
  const total = (what) => presses.reduce((sum, press) => sum + (press[what] ?? Number.NaN), 0)
  return { lesson, steps: count, presses, allPicturesMs: total('allPicturesMs'), finishedMs: total('finishedMs') }
}
