import { afterAll, beforeAll, expect, test } from 'vitest'
import { hostPage, type PageHost, type } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

test('the middle of the shadow edge is drawn on demand, by keyboard; its triangle comes and goes with the pattern', async () => {
  const page = await host.visit()
  const word = page.getByRole('button', { name: 'edge’s middle', exact: true })
  const edge = page.getByRole('img', { name: /^Middle of the shadow edge of A on the face/ })
  expect(await edge.count()).toBe(0)
  // The trade's table: Rembrandt at 52° round and 42° up from the nose (common practice, no source); the head is turned first.
  await type(page, 'A round', '30 right')
  await word.focus()
  await page.keyboard.press('Enter')
  expect(await word.getAttribute('aria-pressed')).toBe('true')
  await edge.waitFor()
  const inside = await edge.evaluate((svg) => {
    const [box, print] = [svg.getBoundingClientRect(), svg.parentElement!.getBoundingClientRect()]
    return [...svg.querySelectorAll('path')].every((path) => {
      const { left, right, top, bottom } = path.getBoundingClientRect()
      return left >= print.left && right <= print.right && top >= print.top && bottom <= print.bottom && box.width > 0
    })
  })
  expect(inside).toBe(true)
  await page.getByRole('button', { name: 'profile', exact: true }).click()
  expect(await edge.count()).toBe(0)
  await page.getByRole('button', { name: 'cheek crop', exact: true }).click()
  await edge.waitFor()
  await word.focus()
  await page.keyboard.press('Space')
  expect(await edge.count()).toBe(0)
  await host.leave()
})
