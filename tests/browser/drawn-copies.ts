/** What the canvas of the page has shown: kept in the page from the events by which it tells of each picture. */
import type { Page } from 'playwright-core'
import { linearFromSrgb } from '../../src/photometry'

export interface Copy {
  readonly width: number
  readonly height: number
  readonly samples: number
  /** When the page asked for the sitting that it shows, ms of the page's time. */
  readonly askedAtMs: number
  /** Red, green, blue from the top. */
  readonly codes: readonly number[]
}

declare global {
  interface Window {
    copies: Copy[]
  }
}

export const keepCopies = (page: Page): Promise<void> =>
  page.evaluate(() => {
    window.copies = []
    const canvas = document.createElement('canvas')
    document.addEventListener('picture', (event) => {
      const { copy, samples, askedAtMs } = (event as CustomEvent).detail
      if (!copy) return
      const { width, height } = copy
      Object.assign(canvas, { width, height })
      const context = canvas.getContext('2d', { willReadFrequently: true })!
      context.drawImage(copy, 0, 0)
      const codes = [...context.getImageData(0, 0, width, height).data].filter((_, i) => i % 4 !== 3)
      window.copies.push({ width, height, samples, askedAtMs, codes })
    })
  })

export const copiesOf = (page: Page): Promise<Copy[]> => page.evaluate(() => window.copies)
export const timeOf = (page: Page): Promise<number> => page.evaluate(() => performance.now())

/** The last copy of a sitting that was asked for then or later, once there is one. */
export async function copySince(page: Page, sinceMs: number): Promise<Copy> {
  await page.waitForFunction((since) => window.copies.some(({ askedAtMs }) => askedAtMs >= since), sinceMs, {
    timeout: 120_000,
  })
  return page.evaluate(() => window.copies.at(-1)!)
}

/** Cells of a picture, so that a coarse copy and a fine one of the same frame can be compared. */
export const CELLS = { columns: 16, rows: 24 }

/** Mean green light of each cell, 1 being white: sRGB as IEC 61966-2-1 has it. */
export function lightOf({ codes, width, height }: Copy): number[] {
  const [w, h] = [width / CELLS.columns, height / CELLS.rows]
  if (w % 1 !== 0 || h % 1 !== 0) throw new Error(`${width} × ${height} pixels are no whole cells`)
  const sums = new Array<number>(CELLS.columns * CELLS.rows).fill(0)
  for (let i = 0; i < width * height; i++) {
    const [x, y] = [Math.floor((i % width) / w), Math.floor(Math.floor(i / width) / h)]
    sums[CELLS.columns * y + x]! += linearFromSrgb(codes[3 * i + 1]! / 255) / (w * h)
  }
  return sums
}

/** By how many stops one picture is brighter than another of the same frame: the median of cells that are neither dark nor near white. */
export function stopsBetween(a: Copy, b: Copy): number {
  const inside = (light: number) => light > 0.013 && light < 0.8
  const after = lightOf(b)
  const stops = lightOf(a).flatMap((light, i) =>
    inside(light) && inside(after[i]!) ? [Math.log2(after[i]! / light)] : [],
  )
  if (stops.length < 100) throw new Error(`only ${stops.length} cells to compare`)
  return stops.sort((x, y) => x - y)[stops.length >> 1]!
}

/** How far two pictures are apart, number by number. */
export function apart(a: readonly number[], b: readonly number[]): { readonly most: number; readonly rms: number } {
  const off = a.map((value, i) => Math.abs(value - b[i]!))
  return { most: Math.max(...off), rms: Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length) }
}
