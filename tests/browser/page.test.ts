import { readdirSync, readFileSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readingsCommand } from '../../src/commands/readings-command'
import type { Reading } from '../../src/readings'
import {
  axeInBoth,
  dragBy,
  field,
  grip,
  hostPage,
  middleOf,
  PATHS,
  type PageHost,
  shownIn,
  type,
  undoButton,
} from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

describe('by pointer', () => {
  test('the key is dragged round and away on the plan, in one step that undo names', async () => {
    const page = await host.visit()
    const before = await shownIn(page, 'A round')
    const tape = Number.parseFloat(await shownIn(page, 'A tape'))
    const up = await shownIn(page, 'A up')
    await dragBy(page, grip(page, 'Plan', 'source key'), -140, 40)
    expect(await shownIn(page, 'A round')).toMatch(/left$/)
    expect(Number.parseFloat(await shownIn(page, 'A tape'))).not.toBe(tape)
    expect(await shownIn(page, 'A up')).toBe(up)
    expect(await undoButton(page).textContent()).toMatch(
      /^undo: A round to \d+° left, \d+ cm (nearer|farther) at \d+° up( at the ceiling)?$/,
    )
    await undoButton(page).click()
    expect(await shownIn(page, 'A round')).toBe(before)
    expect(await undoButton(page).textContent()).toBe('undo')
    await host.leave()
  })

  test('on the elevation it is dragged up', async () => {
    const page = await host.visit()
    const before = Number.parseFloat(await shownIn(page, 'A height'))
    const round = await shownIn(page, 'A round')
    await dragBy(page, grip(page, 'Elevation', 'source key'), 0, -30)
    expect(Number.parseFloat(await shownIn(page, 'A height'))).toBeGreaterThan(before + 0.1)
    expect(await shownIn(page, 'A round')).toBe(round)
    await host.leave()
  })

  test('a drag is followed as the hand tells of it, and to where it stopped', async () => {
    const page = await host.visit()
    const box = (await grip(page, 'Plan', 'source key').boundingBox())!
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await page.mouse.move(x, y)
    await page.mouse.down()
    const before = await shownIn(page, 'A round')
    const tell = (moves: readonly { kind: string; clientX: number; clientY: number }[]) =>
      page.locator('.plan svg.drawing').evaluate(
        (svg, all) =>
          new Promise<void>((done) =>
            requestAnimationFrame(() => {
              for (const { kind, ...at } of all) svg.dispatchEvent(new PointerEvent(kind, { bubbles: true, ...at }))
              done()
            }),
          ),
        moves,
      )
    const soon = { kind: 'pointerrawupdate', clientX: x - 60, clientY: y + 30 }
    await tell([soon])
    await expect.poll(() => shownIn(page, 'A round')).not.toBe(before)
    // Of two in one frame the second waits for a third, or until it is clear that none comes.
    await tell([
      { ...soon, clientX: x - 80 },
      { kind: 'pointermove', clientX: x - 150, clientY: y + 40 },
    ])
    await expect.poll(() => shownIn(page, 'A round')).toMatch(/left$/)
    await page.mouse.up()
    await undoButton(page).click()
    expect(await shownIn(page, 'A round')).toBe(before)
    await host.leave()
  })

  test('a second press within a moment puts it back', async () => {
    const page = await host.visit()
    const before = await shownIn(page, 'A round')
    await dragBy(page, grip(page, 'Plan', 'source key'), -100, 60)
    expect(await shownIn(page, 'A round')).not.toBe(before)
    await page.waitForTimeout(500)
    await grip(page, 'Plan', 'source key').dblclick()
    expect(await shownIn(page, 'A round')).toBe(before)
    await host.leave()
  })
})

describe('by keyboard alone', () => {
  test('arrow keys on the handle: 1° round, ten with Shift; nearer by 5 cm', async () => {
    const page = await host.visit()
    await type(page, 'A round', '40 right')
    await type(page, 'A tape', '1.50 m')
    await page.getByRole('button', { name: /^source A, key/ }).focus()
    await page.keyboard.press('ArrowRight')
    expect(await shownIn(page, 'A round')).toBe('41° right')
    await page.keyboard.press('Shift+ArrowRight')
    expect(await shownIn(page, 'A round')).toBe('51° right')
    await page.keyboard.press('ArrowUp')
    expect(await shownIn(page, 'A tape')).toBe('1.45 m')
    await page.keyboard.press('Control+z')
    expect(await shownIn(page, 'A tape')).toBe('1.50 m')
    await page.keyboard.press('Control+Shift+z')
    expect(await shownIn(page, 'A tape')).toBe('1.45 m')
    await host.leave()
  })

  test('Tab over a handle selects nothing; Enter, Space or an arrow key does', async () => {
    const page = await host.visit()
    const things = page.getByRole('navigation', { name: 'Things in the set' })
    const inHand = () => things.locator('[aria-pressed="true"]').allTextContents()
    const handle = (name: RegExp) => page.getByRole('region', { name: 'Plan' }).getByRole('button', { name })
    await handle(/^source A, key/).focus()
    const passed: (string | null)[] = []
    for (let i = 0; i < 4; i++) {
      await page.keyboard.press('Tab')
      passed.push(await page.evaluate(() => document.activeElement!.getAttribute('data-target')))
      expect(await inHand()).toEqual(['A'])
    }
    expect(passed).toEqual(expect.arrayContaining(['panel panel', 'sitter sitter']))
    const width = (name: RegExp) =>
      handle(name)
        .locator('.grip')
        .evaluate((grip) => getComputedStyle(grip).strokeWidth)
    await handle(/^camera/).focus()
    await page.keyboard.press('Shift+Tab')
    await page.keyboard.press('Tab')
    expect([await width(/^camera/), await inHand()]).toEqual(['2px', ['A']])
    for (const [name, key, word] of [
      [/^camera/, 'Enter', 'camera'],
      [/^sitter/, 'Space', 'sitter'],
      [/^white panel/, 'ArrowLeft', 'white panel'],
    ] as const) {
      await handle(name).focus()
      await page.keyboard.press(key)
      expect(await inHand()).toEqual([word])
      expect(await handle(name).getAttribute('aria-pressed')).toBe('true')
    }
    await host.leave()
  })

  test('Tab goes views, readings, plan, elevation, controls, takes, bar', async () => {
    const page = await host.visit()
    await page.getByRole('button', { name: /^why/ }).first().waitFor({ timeout: 120_000 })
    const order: string[] = []
    for (let i = 0; i < 150; i++) {
      await page.keyboard.press('Tab')
      const region = await page.evaluate(
        () => document.activeElement?.closest('section, header, nav.looks, nav.pages')?.className ?? 'none',
      )
      if (order.at(-1) !== region) order.push(region)
      if (region === 'bar') break
    }
    expect(order).toEqual(['looks', 'readings', 'plan', 'elevation', 'controls', 'takes', 'bar'])
    await host.leave()
  })
})

describe('typed values', () => {
  test('with units; out of range or unreadable they are told, and nothing changes', async () => {
    const page = await host.visit()
    await type(page, 'A tape', '4ft')
    expect(await shownIn(page, 'A tape')).toBe('1.22 m')
    await type(page, 'A tape', 'far')
    await page.getByText('A tape: expected a length such as 1.2 m').waitFor()
    await page.keyboard.press('Escape')
    expect(await shownIn(page, 'A tape')).toBe('1.22 m')
    const below = field(page, 'A height')
    const place = await below.boundingBox()
    await type(page, 'A up', '95deg')
    await page.getByText(/A up: expected −89° to 89°, got 95°/).waitFor()
    // The sentence lies over the rows below: they keep their place, and a press through it finds them.
    expect(await below.boundingBox()).toEqual(place)
    await below.click({ trial: true, timeout: 5000 })
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'camera', exact: true }).click()
    await type(page, 'camera f', 'f/5.6')
    expect(await shownIn(page, 'camera f')).toBe('f/5.6')
    await page.getByRole('button', { name: 'room', exact: true }).click()
    await type(page, 'room walls', '35')
    expect(await shownIn(page, 'room walls')).toBe('35 %')
    await type(page, 'room X from the wall behind', '1.8 m')
    await type(page, 'room deep', '6.5 m')
    expect(await shownIn(page, 'room X from the wall behind')).toBe('1.80 m')
    expect(await undoButton(page).textContent()).toBe('undo: room deep 6.50 m')
    // However long the list of readings, the page itself is no longer than its window.
    await page.getByRole('button', { name: /^\d+ more readings$/ }).click({ timeout: 120_000 })
    expect(await page.evaluate(() => document.documentElement.scrollHeight - innerHeight)).toBe(0)
    await host.leave()
  })

  test('in feet after the switch', async () => {
    const page = await host.visit()
    await type(page, 'A tape', '1.22 m')
    await page.getByRole('button', { name: /^lengths in metres/ }).click()
    expect(await shownIn(page, 'A tape')).toBe('4′ 0″')
    await host.leave()
  })

  test('what stands in a field keeps its unit while the page changes its own', async () => {
    const page = await host.visit()
    const toFeet = page.getByRole('button', { name: /^lengths in metres/ })
    // Left for the word that switches: taken, in metres. 1.5 m are 59.06 in.
    await field(page, 'A tape').fill('1.5')
    await toFeet.click()
    expect(await shownIn(page, 'A tape')).toBe('4′ 11″')
    await page.getByRole('button', { name: /^lengths in feet/ }).click()
    // 25 m is too far and stands there with its fault; it does not become 25 ft, which would do.
    await field(page, 'A tape').fill('25')
    await toFeet.click()
    expect(await shownIn(page, 'A tape')).toBe('25')
    await field(page, 'A tape').press('Enter')
    const fault = page.getByRole('alert').filter({ hasText: 'A tape: expected' })
    expect(await fault.textContent()).toBe('A tape: expected 0.05 m to 20.00 m, got 25.00 m.')
    await field(page, 'A tape').press('Escape')
    expect(await shownIn(page, 'A tape')).toBe('4′ 11″')
    await host.leave()
  })
})

test('what a page or its threads complain of is heard', async () => {
  const page = await host.visit()
  const complain = (who: string) => {
    console.warn(`${who}: WebGL warning`)
    console.error(`${who}: WebGL error`)
    setTimeout(() => {
      throw new Error(`${who}: thrown`)
    })
  }
  await page.evaluate(complain, 'page')
  await Promise.all(page.workers().map((worker) => worker.evaluate(complain, 'thread')))
  const expected = ['page', ...page.workers().map(() => 'thread')].flatMap((who) => [
    `${who}: WebGL warning`,
    `${who}: WebGL error`,
    `Error: ${who}: thrown`,
  ])
  expect(expected).toContain('thread: WebGL error')
  const heard: string[] = []
  await expect
    // A thread that reads the light throws when it comes to it.
    .poll(() => heard.push(...host.complaints()) && heard.map((words) => words.split('\n')[0]).sort(), {
      timeout: 60_000,
    })
    .toEqual(expected.sort())
  await host.leave()
})

describe('the set', () => {
  test('kinds are swapped, things come and go, and all of it can be undone', async () => {
    const page = await host.visit()
    const kind = page.getByRole('combobox', { name: 'A kind' })
    const kinds = await kind.locator('option').evaluateAll((all) => all.map((o) => (o as HTMLOptionElement).value))
    expect(kinds.length).toBeGreaterThanOrEqual(6)
    for (const value of kinds) {
      await kind.selectOption(value)
      // A sky stands nowhere: the plan has nothing of it.
      if (value === 'overcast-sky')
        await page.locator('.plan svg text').getByText('A', { exact: true }).waitFor({ state: 'detached' })
      else await expectText(page, 'plan', 'A')
    }
    const add = async (word: string) => {
      await page.getByRole('button', { name: 'add', exact: true }).click()
      await page.getByRole('button', { name: word, exact: true }).last().click()
    }
    await add('source')
    await page.getByRole('button', { name: 'B', exact: true }).waitFor()
    // What a source is for says where it stands: behind the head, and no nose shadow is drawn of it.
    expect(await page.locator('.plan clipPath').count()).toBe(1)
    await add('hair light')
    await page.getByRole('slider', { name: 'C round' }).waitFor()
    expect(
      Math.abs(Number(await page.getByRole('slider', { name: 'C round' }).getAttribute('aria-valuenow'))),
    ).toBeGreaterThan(120)
    expect(await page.locator('.plan clipPath').count()).toBe(0)
    for (const word of ['silver panel', 'matt ball', 'grey card', 'flag before a card']) await add(word)
    const things = page.getByRole('navigation', { name: 'Things in the set' })
    for (const word of ['silver panel', 'matt ball', 'card', 'flag before a card'])
      await things.getByRole('button', { name: word, exact: true }).waitFor()
    await page.getByRole('button', { name: 'remove', exact: true }).click()
    expect(await things.getByRole('button', { name: 'flag before a card', exact: true }).count()).toBe(0)
    while ((await undoButton(page).textContent()) !== 'undo') await undoButton(page).click()
    expect(await things.getByRole('button', { name: 'B', exact: true }).count()).toBe(0)
    expect(await page.getByRole('combobox', { name: 'A kind' }).inputValue()).toBe('white-umbrella')
    await host.leave()
  })

  test('an empty set says so and a new source lights it again; a turned head and a lost backdrop are read as well', async () => {
    const page = await host.visit()
    await page.getByRole('button', { name: 'remove', exact: true }).click()
    await page.locator('.plan').getByText('no source: add one').waitFor()
    await page.locator('.reading').getByText('no source is on').first().waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'add', exact: true }).click()
    await page.locator('.things .list').getByRole('button', { name: 'source', exact: true }).click()
    await page.getByRole('button', { name: 'backdrop', exact: true }).click()
    await page.getByRole('button', { name: 'remove', exact: true }).click()
    await page.getByRole('button', { name: 'sitter', exact: true }).click()
    await type(page, 'sitter head', '30 left')
    await page.locator('.reading').getByText(/^f\//).first().waitFor({ timeout: 60_000 })
    expect(await page.getByText(/could not be (read|put together)|stopped/).count()).toBe(0)
    await host.leave()
  })

  /** Both whole with their numbers: at twice the distance the edge is half as wide (S·d/D), and that is what is said. Nothing of the set changes. */
  async function comparedSideBySide(page: Page): Promise<void> {
    const word = page.getByRole('button', { name: 'compare take 1 and take 2 side by side', exact: true })
    await word.press('Enter')
    const row = (name: string) =>
      page.locator('.pair tr', { has: page.getByRole('rowheader', { name, exact: true }) }).locator('td')
    await row('tape').first().getByText('1.00 m').waitFor({ timeout: 60_000 })
    await expect.poll(() => row('tape').allTextContents(), { timeout: 60_000 }).toEqual(['1.00 m', '2.00 m'])
    await expect
      .poll(async () => (await row('shadow edge').allTextContents()).every((text) => text.endsWith('mm')))
      .toBe(true)
    const [near, far] = (await row('shadow edge').allTextContents()).map((text) => Number.parseFloat(text))
    expect(near! / far!).toBeGreaterThan(1.7)
    expect(near! / far!).toBeLessThan(2.3)
    await page.getByText(/^take 2 against take 1: .*shadow edge (4|5)\d % narrower/).waitFor({ timeout: 120_000 })
    expect(await axeInBoth(page)).toEqual([])
    await page.getByRole('combobox', { name: 'on the left', exact: true }).selectOption('take 2')
    await page.getByRole('heading', { name: 'take 2 | take 1' }).waitFor()
    await page.keyboard.press('Escape')
    await expect.poll(() => word.evaluate((button) => button === document.activeElement)).toBe(true)
    expect(await undoButton(page).textContent()).toBe('undo: take 2 kept')
    expect(await page.getByRole('button', { name: /^take [12]$/ }).count()).toBe(2)
  }

  test('takes are kept and shown', async () => {
    const page = await host.visit()
    const first = await shownIn(page, 'A tape')
    await page.getByRole('button', { name: 'keep as take 1', exact: true }).click()
    await type(page, 'A tape', '2 m')
    const take = page.getByRole('button', { name: 'take 1', exact: true })
    expect(await take.getAttribute('aria-pressed')).toBe('false')
    await take.click()
    expect(await shownIn(page, 'A tape')).toBe(first)
    expect(await take.getAttribute('aria-pressed')).toBe('true')
    await type(page, 'A tape', '2 m')
    await page.getByRole('button', { name: 'new take', exact: true }).click()
    // The newest is in sight, whole; so are all words beside the strip.
    const inside = () =>
      page.locator('.takes').evaluate((strip) => {
        const [frame, kept] = [strip.getBoundingClientRect(), strip.querySelector('.kept')!.getBoundingClientRect()]
        const newest = strip.querySelector('.kept > :last-child')!.getBoundingClientRect()
        const cut = [...strip.querySelectorAll<HTMLElement>('.words .word, select')].filter((word) => {
          const { left, right, bottom } = word.getBoundingClientRect()
          return (
            left < kept.right || right > frame.right || bottom > frame.bottom || word.scrollWidth > word.clientWidth
          )
        })
        return [newest.left >= kept.left && newest.right <= kept.right, cut.map((word) => word.textContent)]
      })
    await expect.poll(inside).toEqual([true, []])
    await page.getByRole('button', { name: 'in turn 1 | 2: show take 1', exact: true }).click()
    expect(await shownIn(page, 'A tape')).toBe(first)
    await page.getByRole('button', { name: 'in turn 1 | 2: show take 2', exact: true }).click()
    expect(await shownIn(page, 'A tape')).toBe('2.00 m')
    await undoButton(page).click()
    expect(await undoButton(page).textContent()).toBe('undo: take 2 kept')
    await comparedSideBySide(page)
    await page.getByRole('button', { name: 'delete', exact: true }).click()
    const list = await page.locator('.takes .list').boundingBox()
    expect(list!.y + list!.height).toBeLessThanOrEqual(900)
    await page.locator('.takes .list').getByRole('button', { name: 'take 1', exact: true }).click()
    expect(await take.count()).toBe(0)
    await host.leave()
  })

  test('a press beside an open list does what it was aimed at, and closes the list', async () => {
    const page = await host.visit()
    await page.getByRole('button', { name: 'add', exact: true }).click()
    const list = page.locator('.things .list')
    await list.waitFor()
    const [x, y] = await middleOf(page.getByRole('button', { name: 'keep as take 1', exact: true }))
    await page.mouse.click(x, y)
    await page.getByRole('button', { name: 'take 1', exact: true }).waitFor()
    expect(await list.count()).toBe(0)
    await host.leave()
  })

  test('two panels and two objects stand apart', async () => {
    const page = await host.visit()
    for (const word of ['white panel', 'matt ball', 'grey card']) {
      await page.getByRole('button', { name: 'add', exact: true }).click()
      await page.locator('.things .list').getByRole('button', { name: word, exact: true }).click()
    }
    const places = await page
      .locator('.plan [data-target^="panel"], .plan [data-target^="object"]')
      .evaluateAll((all) =>
        all.map((handle) => {
          const grip = handle.querySelector('circle')
          return [Number(grip?.getAttribute('cx')), Number(grip?.getAttribute('cy'))] as const
        }),
      )
    expect(places).toHaveLength(4)
    for (const [i, a] of places.entries())
      for (const b of places.slice(i + 1)) expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeGreaterThan(10)
    await host.leave()
  })

  test('every sitting of the list opens, one after another, with the readings of the command without a browser', async () => {
    const page = await host.visit()
    const sittings = page.getByRole('button', { name: 'sittings', exact: true })
    await sittings.click()
    await page.locator('.cells .word').first().waitFor()
    const titles = await page.locator('.cells .word').allTextContents()
    await page.keyboard.press('Escape')
    const files = readdirSync('scenes').filter((file) => file.endsWith('.sitting.json'))
    const byTitle = new Map(files.map((file) => [JSON.parse(readFileSync(`scenes/${file}`, 'utf8')).title, file]))
    expect(titles.length).toBeGreaterThanOrEqual(6)
    expect([...titles].sort()).toEqual([...byTitle.keys()].sort())
    for (const title of titles) {
      await sittings.click()
      const cell = page.locator('.cells').getByRole('button', { name: title, exact: true })
      if ((await page.locator('.bar .title').textContent()) === title) await cell.click()
      else expect(await cell.evaluate(ringsOnOpening, title), title).toBe(0)
      await page.locator('.bar .title').getByText(title, { exact: true }).waitFor()
      const { code, out } = await readingsCommand([`scenes/${byTitle.get(title)}`, '--json', '--paths', `${PATHS}`])
      expect(code).toBe(0)
      // Once all light is traced.
      await expect.poll(() => allShown(page), { timeout: 120_000 }).toEqual(saidOnce(JSON.parse(out).readings))
    }
    await host.leave()
  })
})

/** Rings of cautions on the drawings as the name of another sitting comes: none is read yet, and none of the last one is left. */
const ringsOnOpening = (button: HTMLElement | SVGElement, title: string) =>
  new Promise<number>((resolve) => {
    const bar = document.querySelector('.bar .title')!
    new MutationObserver((_, observer) => {
      if (bar.textContent !== title) return
      observer.disconnect()
      resolve(document.querySelectorAll('.caution-ring').length)
    }).observe(bar, { subtree: true, childList: true, characterData: true })
    button.dispatchEvent(new MouseEvent('click', { bubbles: true }))
  })

/** What the page says of every reading: number, unit, sentence. */
async function allShown(page: Page): Promise<readonly string[]> {
  const more = page.getByRole('button', { name: /^\d+ more readings$/ })
  if ((await more.count()) > 0) await more.first().click()
  const said = await page.locator('.reading').evaluateAll((all) =>
    all.map((reading) => {
      const [value, sentence] = [reading.querySelector('.value'), reading.querySelector('.whole')]
      return `${value!.textContent!.trim().replace(/ stops$/, ' stop')} ${sentence!.textContent}`
    }),
  )
  return said.sort()
}

/** The same of records; what is missing for one reason is said once, as on the page. */
const saidOnce = (readings: readonly Reading[]): readonly string[] => {
  const missing = new Set<string>()
  const said = readings.flatMap(({ value, text, unit, sentence }) => {
    if (value === null && missing.has(sentence)) return []
    missing.add(sentence)
    return [`${unit && unit !== '°' ? `${text} ${unit}` : text + unit} ${sentence}`]
  })
  return said.sort()
}

const expectText = (page: Page, region: string, text: string) =>
  page.locator(`.${region} svg text`).getByText(text, { exact: true }).waitFor()
