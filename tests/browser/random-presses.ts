/**
 * Whatever a hand at mouse and keys may do next on the page, by a seed: real keys and moves of the browser on what is seen, none
 * of which the page is told of in another way.
 */
import type { Page } from 'playwright-core'
import { numbersFrom } from '../ui/random-hand'

interface Seen {
  readonly name: string
  readonly x: number
  readonly y: number
  /** Of a choice: how many it has. */
  readonly options: number
}

const MARK = 'data-pressed-next'

class RandomHand {
  constructor(
    private readonly page: Page,
    readonly next: () => number,
  ) {}
  one<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!
  }

  /** Marks one of the things that are seen and may be pressed; null: there is none. */
  async find(selector: string): Promise<Seen | null> {
    return this.page.evaluate(
      ({ selector, lot, mark }) => {
        for (const old of document.querySelectorAll(`[${mark}]`)) old.removeAttribute(mark)
        const all = [...document.querySelectorAll<HTMLElement>(selector)].filter((element) => {
          const { width, height } = element.getBoundingClientRect()
          return width > 0 && height > 0 && !element.closest('[inert], :disabled')
        })
        const found = all[Math.floor(lot * all.length)]
        if (!found) return null
        found.setAttribute(mark, '')
        const { x, y, width, height } = found.getBoundingClientRect()
        return {
          name: (
            found.getAttribute('aria-label') ??
            found.closest('.handle')?.ariaLabel ??
            found.textContent ??
            ''
          ).slice(0, 60),
          x: x + width / 2,
          y: y + height / 2,
          options: found instanceof HTMLSelectElement ? found.options.length : 0,
        }
      },
      { selector, lot: this.next(), mark: MARK },
    )
  }

  async focus(selector: string): Promise<string | null> {
    const seen = await this.find(selector)
    if (!seen) return null
    await this.page.evaluate((mark) => document.querySelector<HTMLElement>(`[${mark}]`)?.focus(), MARK)
    return seen.name
  }

  async press(selector: string, key: string): Promise<string> {
    const name = await this.focus(selector)
    if (name === null) return 'nothing there'
    await this.page.keyboard.press(key)
    return `${name}: ${key}`
  }

  /** With nothing in focus, as after a press beside everything. */
  async key(key: string): Promise<string> {
    await this.page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur())
    await this.page.keyboard.press(key)
    return key
  }

  /** A word, and one of the list that opens under it. */
  async choose(word: string, entries: string): Promise<string> {
    if ((await this.focus(word)) === null) return 'nothing there'
    await this.page.keyboard.press('Enter')
    const said = await this.press(entries, 'Enter')
    // Where nothing was chosen it would lie over what is pressed next.
    await this.page.keyboard.press('Escape')
    return said
  }

  async drag(): Promise<string> {
    const handle = await this.find('.plan .grip, .elevation .grip')
    if (!handle) return 'nothing there'
    const key = this.one([null, null, 'Alt', 'Shift', 'Control'])
    const { mouse, keyboard } = this.page
    if (key) await keyboard.down(key)
    await mouse.move(handle.x, handle.y)
    await mouse.down()
    for (let i = 0; i < 3; i++)
      await mouse.move(handle.x + 240 * (this.next() - 0.5), handle.y + 240 * (this.next() - 0.5))
    await mouse.up()
    if (key) await keyboard.up(key)
    return `${handle.name} dragged${key ? ` with ${key}` : ''}`
  }

  async pressTwice(): Promise<string> {
    const handle = await this.find('.plan .grip, .elevation .grip')
    if (!handle) return 'nothing there'
    await this.page.mouse.dblclick(handle.x, handle.y)
    return `${handle.name} pressed twice`
  }

  async type(): Promise<string> {
    const name = await this.focus('.controls .row input.field')
    if (name === null) return 'nothing there'
    const text = this.one(TYPED)
    await this.page.keyboard.press('ControlOrMeta+a')
    await this.page.keyboard.type(text)
    await this.page.keyboard.press('Enter')
    return `${name}: ${text}`
  }

  async select(selector: string): Promise<string> {
    const seen = await this.find(selector)
    if (!seen) return 'nothing there'
    const index = Math.floor(this.next() * seen.options)
    await this.page.locator(`[${MARK}]`).selectOption({ index })
    return `${seen.name}: choice ${index}`
  }

  arrow = () => this.one(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Shift+ArrowLeft', 'Shift+ArrowUp'])
}

/** Of all quantities, right and wrong ones: what is refused leaves the set alone. */
const TYPED = ['1.2m', '4ft', '90 cm', '35deg', '20 left', 'f/8', '-1 stop', '1/60', '5600', '0', '-3', 'soft', '1e9']

/** Any word of what is in hand but those that ask the person's disk for a file. */
const ROW_WORDS = '.controls .rows button.word:not([aria-label*="file"]), .selected .word:not(.opens *)'

const ACTS: readonly (readonly [times: number, act: (hand: RandomHand, page: Page) => Promise<string>])[] = [
  [4, (hand) => hand.press('.plan .handle, .elevation .handle', hand.arrow())],
  [4, (hand) => hand.drag()],
  [1, (hand) => hand.pressTwice()],
  [4, (hand) => hand.press('.controls .slider', hand.one(['ArrowLeft', 'ArrowRight', 'PageUp', 'PageDown', 'Home']))],
  [3, (hand) => hand.type()],
  [4, (hand) => hand.press('.things > .word:not([title])', hand.one(['Enter', 'Enter', 'Control+Enter']))],
  [3, (hand) => hand.press(ROW_WORDS, 'Enter')],
  [3, (hand) => hand.select('.controls select, .takes .right select')],
  [2, (hand) => hand.choose('.things > .opens:last-of-type > .word', '.things .list > .word')],
  [1, (hand) => hand.press('.things > .word[title*="left for right"]', 'Enter')],
  [1, (hand) => hand.press('.things > .word[title^="take several"], .several .word', 'Enter')],
  [2, (hand) => hand.press('.takes > .word, .takes .kept .word', 'Enter')],
  [1, (hand) => hand.choose('.takes .opens > .word', '.takes .list > .word')],
  [2, (hand) => hand.key(hand.one(['Control+c', 'Control+x', 'Control+v']))],
  [3, (hand) => hand.key(hand.one(['Control+z', 'Control+y']))],
  [1, (hand) => hand.choose('.history > .word', '.history .list > .word')],
  [1, (hand) => hand.press('.bar .word[aria-label^="lengths"], .looks .word, .reading .word', 'Enter')],
]
const PACK = ACTS.flatMap(([times, act]) => Array.from({ length: times }, () => act))

/** Does so many things by a seed; what was done is added to the list as it is done. */
export async function pressRandomly(page: Page, seed: number, count: number, done: string[]): Promise<void> {
  const hand = new RandomHand(page, numbersFrom(seed))
  for (let i = 0; i < count; i++) {
    done.push(await hand.one(PACK)(hand, page))
    await uncover(page)
  }
}

/** What was opened over the working surface, such as the contact sheet by 'variants', is shut again once it is there. */
async function uncover(page: Page): Promise<void> {
  if (!(await page.evaluate(() => document.querySelector<HTMLElement>('main')?.inert))) return
  await page.locator('.contact').press('Escape')
}
