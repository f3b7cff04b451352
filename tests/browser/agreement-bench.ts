/** What every test of agreement begins with: one page for the file, the scenes, and rows of figures to be judged. */
import { readFileSync } from 'node:fs'
import { afterAll, beforeAll } from 'vitest'
import type { Sitting } from '../../src/sitting'
import { type OpenPage, openPage } from './harness'

/** For the slowest machine: two routes over one set. */
export const TIMEOUT_MS = 600_000

/** Pages that no file uses now: their shaders are compiled. */
const idle: OpenPage[] = []

/** One page for all tests of a file, from before the first until after the last; then the worker's next file may have it. */
export function agreementPage(): OpenPage {
  let open: OpenPage | null = null
  beforeAll(async () => {
    const ready = idle.pop()
    open = ready && !ready.page.isClosed() ? ready : await openPage('agreement.page.ts')
  })
  afterAll(() => {
    if (!open) return
    idle.push(open)
    open.silent()
  })
  return {
    get page() {
      if (!open) throw new Error('agreementPage: asked for its page before the tests have begun')
      return open.page
    },
    silent: () => open?.silent(),
    close: async () => open?.close(),
  }
}

export const sceneText = (name: string): string => readFileSync(`scenes/${name}.sitting.json`, 'utf8')
export const scene = (name: string): Sitting => JSON.parse(sceneText(name))

/** A row for the console: its numbers to a thousandth. */
export const shown = <T extends object>(row: T): object =>
  Object.fromEntries(Object.entries(row).map(([k, v]) => [k, typeof v === 'number' ? Number(v.toFixed(3)) : v]))

export const meanSize = (rows: readonly { readonly stops: number }[]): number =>
  rows.reduce((sum, { stops }) => sum + Math.abs(stops), 0) / rows.length
