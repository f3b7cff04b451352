import { mkdtempSync, readFileSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readSitting } from '../../src/sitting'
import { iesText, ldtText, panel, range } from '../exchange/photometric-samples'
import { axe, axeInBoth, hostPage, type PageHost, shownIn, type, undoButton } from './page-host'

let host: PageHost
beforeAll(async () => {
  host = await hostPage()
})
afterAll(() => host?.close())

describe('files and the desk', () => {
  test('saved, changed, opened again: the same sitting', async () => {
    const page = await host.visit()
    await type(page, 'A tape', '1.35 m')
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'save', exact: true }).click(),
    ])
    expect(download.suggestedFilename()).toMatch(/\.sitting\.json$/)
    const file = await download.path()
    await type(page, 'A tape', '2 m')
    await page.locator('input[type=file]').setInputFiles(file)
    await expect.poll(() => shownIn(page, 'A tape')).toBe('1.35 m')
    await host.leave()
  })

  test('a broken file is told by path, expected, got and what to do; the work stays', async () => {
    const page = await host.visit()
    const before = await shownIn(page, 'A tape')
    const text = readFileSync('scenes/notice-board.sitting.json', 'utf8').replace(/"energyJ": \d+/, '"energyJ": "half"')
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'hall.sitting.json', mimeType: 'application/json', buffer: Buffer.from(text) })
    const notice = page.getByRole('alert')
    await notice.getByText('hall.sitting.json was not opened. Your present sitting is untouched.').waitFor()
    const words = await notice.textContent()
    expect(words).toContain('sources[0].head.energyJ')
    expect(words).toContain('"half"')
    expect(words).toMatch(/a number .* J/)
    expect(await shownIn(page, 'A tape')).toBe(before)
    await host.leave()
  })

  test('a file dropped on the page opens', async () => {
    const page = await host.visit()
    const text = readFileSync('scenes/three-umbrellas.sitting.json', 'utf8')
    const transfer = await page.evaluateHandle((content) => {
      const data = new DataTransfer()
      data.items.add(new File([content], 'three.sitting.json'))
      return data
    }, text)
    await page.dispatchEvent('.app', 'drop', { dataTransfer: transfer })
    const title = page.locator('.bar .title > .word')
    await expect.poll(() => title.textContent()).toBe(JSON.parse(text).title)
    const open = page.locator('.bar input[type=file]')
    const asFile = (name: string, buffer: Buffer) => open.setInputFiles({ name, mimeType: 'application/json', buffer })
    // Marks in a title are letters: no element comes of them, and nothing runs.
    const marks = `<img src=x onerror="document.title='owned'"><script>document.title='owned'</script>`
    await asFile('marks.sitting.json', Buffer.from(JSON.stringify({ ...JSON.parse(text), title: marks, note: marks })))
    await expect.poll(() => title.textContent()).toBe(marks)
    expect(await page.locator('img, body script').evaluateAll((all) => all.map((each) => each.outerHTML))).toEqual([])
    expect(await page.title()).not.toContain('owned')
    // Nested a hundred thousand deep, or larger than any of ours: told, and nothing is lost.
    await asFile('deep.sitting.json', Buffer.from('['.repeat(1e5)))
    await page.getByText('deep.sitting.json was not opened. Your present sitting is untouched.').waitFor()
    const large = join(mkdtempSync(join(tmpdir(), 'large-')), 'large.sitting.json')
    writeFileSync(large, '')
    truncateSync(large, 65 * 2 ** 20)
    await open.setInputFiles(large)
    const notice = page.getByRole('alert')
    await notice.getByText('large.sitting.json was not opened. Your present sitting is untouched.').waitFor()
    expect(await notice.textContent()).toMatch(/65 MB.*at most 64 MB/)
    expect(await title.textContent()).toBe(marks)
    await host.leave()
  })

  test('a lamp of IES dropped on the page is a new source; another is read into it by keys; a broken one is told in place', async () => {
    const page = await host.visit()
    const ies = iesText({ planes: [0], angles: range(0, 90, 5), candela: panel })
    const drop = async (name: string, content: string) => {
      const transfer = await page.evaluateHandle(
        ([name, content]) => {
          const data = new DataTransfer()
          data.items.add(new File([content!], name!))
          return data
        },
        [name, content],
      )
      await page.dispatchEvent('.app', 'drop', { dataTransfer: transfer })
    }
    await drop('panel.ies', ies)
    await expect.poll(() => undoButton(page).textContent()).toBe('undo: panel.ies added')
    const sheet = page.getByRole('region', { name: 'Controls' })
    await sheet.getByText(/test lamp: 3142 lm, 1000 cd at most; 19 angles in 2 planes/).waitFor()
    const button = page.getByRole('button', { name: /^read a lamp file into/ })
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), button.press('Enter')])
    const half = ldtText({ symmetry: 1, candela: (p, a) => panel(p, a) / 2 })
    await chooser.setFiles({ name: 'half.ldt', mimeType: 'text/plain', buffer: Buffer.from(half) })
    await sheet.getByText(/1571 lm, 500 cd at most; 37 angles/).waitFor()
    expect(await undoButton(page).textContent()).toMatch(/^undo: half.ldt read into [A-Z]$/)
    await drop('broken.ies', ies.replace('1000.00000', 'bright'))
    const notice = page.getByRole('alert')
    await notice.getByText('broken.ies was not read. The sitting is as it was.').waitFor()
    expect(await notice.textContent()).toMatch(/intensity in plane 0°, 1 of 19.*"bright"/)
    await sheet.getByText(/1571 lm/).waitFor()
    await host.leave()
  })

  test('title and note are written under the title, by keys alone; undo names the step and the file carries them', async () => {
    const page = await host.visit()
    const word = page.locator('.bar .title > .word')
    const before = await word.textContent()
    await word.focus()
    await page.keyboard.press('Enter')
    await page.keyboard.press('Tab')
    await page.keyboard.press('ControlOrMeta+a')
    await page.keyboard.type('Garden committee')
    await page.keyboard.press('Enter')
    expect(await word.textContent()).toBe('Garden committee')
    expect(await undoButton(page).textContent()).toBe('undo: titled Garden committee')
    await page.keyboard.press('Tab')
    await page.keyboard.type('Four sitters.')
    await page.keyboard.press('Enter')
    await page.keyboard.type('The tallest last.')
    // Inside the box, its own undo; the sitting is left alone.
    await page.keyboard.press('ControlOrMeta+z')
    expect(await word.textContent()).toBe('Garden committee')
    await page.keyboard.press('Escape')
    const note = page.getByRole('textbox', { name: 'note', exact: true })
    expect(await note.inputValue()).toBe('')
    await page.keyboard.type('Four sitters.')
    await page.keyboard.press('ControlOrMeta+Enter')
    expect(await undoButton(page).textContent()).toBe('undo: note written')
    await page.keyboard.press('Escape')
    expect(await note.count()).toBe(0)
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Garden committee')
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'save', exact: true }).click(),
    ])
    expect(download.suggestedFilename()).toBe('garden-committee.sitting.json')
    const saved = JSON.parse(readFileSync(await download.path(), 'utf8'))
    expect([saved.title, saved.note]).toEqual(['Garden committee', 'Four sitters.'])
    await undoButton(page).click()
    await undoButton(page).click()
    expect(await word.textContent()).toBe(before)
    await host.leave()
  })

  test.each(['full', 'blocked'])('a store that is %s says so; the work goes on and is saved as a file', async (how) => {
    const page = await host.visit()
    await page.addInitScript((store) => {
      if (store === 'blocked')
        Object.defineProperty(window, 'indexedDB', {
          get: () => {
            throw new DOMException('not here', 'SecurityError')
          },
        })
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError')
      }
      Storage.prototype.setItem = () => {
        throw new DOMException('no room', 'QuotaExceededError')
      }
    }, how)
    await page.reload()
    await type(page, 'A tape', '1.35 m')
    await page.getByRole('alert').getByText('This device does not keep the sitting.').waitFor()
    await page.getByRole('alert').getByText('Save the sitting as a file before you leave.').waitFor()
    expect(await shownIn(page, 'A tape')).toBe('1.35 m')
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'save', exact: true }).click()
    const result = readSitting(readFileSync(await (await download).path(), 'utf8'))
    expect('sitting' in result).toBe(true)
    // The lesson under the pen and what is ticked on the day say so in their own places, and go on.
    await page.getByRole('button', { name: 'lessons', exact: true }).press('Enter')
    await page.getByRole('button', { name: 'write a lesson' }).press('Enter')
    await page.locator('.add-step').getByRole('button', { name: 'explain', exact: true }).press('Enter')
    await page.getByText('This browser does not keep the lesson: save it as a file before you leave.').waitFor()
    expect(await page.locator('.step-pen').count()).toBe(1)
    await page.keyboard.press('Escape')
    await page.keyboard.press('Escape')
    await page.getByRole('button', { name: 'carry and print', exact: true }).click()
    await page.getByText(/^Kit and packing: 0 of/).click({ timeout: 60_000 })
    await page.getByLabel('tripod', { exact: true }).last().check()
    await page
      .getByText(/^This device does not keep what is typed here \((no room|not here)\): it stays on the page\./)
      .waitFor()
    await page.getByText(/^Kit and packing: 1 of/).waitFor()
    await host.leave()
  })

  test('two tabs: what the other one kept is offered, and whatever is kept last, nothing of either is lost', async () => {
    const one = await host.visit()
    await type(one, 'A tape', '1.65 m')
    const two = await host.beside(one)
    const offer = (page: Page) => page.getByRole('status').filter({ hasText: 'Another tab has changed its sitting.' })
    await expect.poll(() => shownIn(two, 'A tape')).toBe('1.65 m')
    await type(two, 'A tape', '1.90 m')
    await offer(one).waitFor()
    expect(await axe(one)).toEqual([])
    await offer(one).getByRole('button', { name: 'take it here', exact: true }).press('Enter')
    expect(await shownIn(one, 'A tape')).toBe('1.90 m')
    expect(await undoButton(one).textContent()).toBe('undo: The other tab’s sitting opened')
    expect(await offer(one).count()).toBe(0)
    await undoButton(one).click()
    expect(await shownIn(one, 'A tape')).toBe('1.65 m')
    // The kit is one for both: what each adds is there in the other, and a step taken back takes only its own.
    const kitWord = (page: Page, name: string) => page.getByRole('button', { name, exact: true })
    for (const page of [one, two]) await kitWord(page, 'kit').press('Enter')
    await kitWord(one, 'add a head').press('Enter')
    await kitWord(two, 'head 1').waitFor()
    await kitWord(two, 'add a stand').press('Enter')
    await kitWord(one, 'stand 1').waitFor()
    await kitWord(one, 'kit undo: a head added').press('Enter')
    await kitWord(two, 'head 1').waitFor({ state: 'detached' })
    expect(await kitWord(one, 'stand 1').count()).toBe(1)
    for (const page of [one, two]) await kitWord(page, 'A').first().press('Enter')
    // Each goes on; the first is left last, so its sitting is the one that lies on the device, at the top.
    await type(one, 'A tape', '1.20 m')
    await offer(two).waitFor()
    await two.close()
    const again = await host.again(one)
    expect(await shownIn(again, 'A tape')).toBe('1.20 m')
    const taped = new Set<string>()
    while ((await undoButton(again).textContent()) !== 'undo') {
      await undoButton(again).click()
      taped.add(await shownIn(again, 'A tape'))
    }
    expect(taped).toContain('1.90 m')
    await kitWord(again, 'kit').press('Enter')
    await kitWord(again, 'stand 1').waitFor()
    expect([await kitWord(again, 'stand 1').count(), await kitWord(again, 'head 1').count()]).toEqual([1, 0])
    await host.leave()
  })

  test('a kit is opened, changed and used by keys; it and what lay on the desk are there when the tab was closed', async () => {
    let page = await host.visit()
    const open = page.locator('.bar input[type=file]')
    const kit = readFileSync('scenes/evening-class.kit.json', 'utf8')
    const spoiled = kit.replace('"energyJ": 200', '"energyJ": "all"')
    const asFile = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
    await open.setInputFiles(asFile('spoiled.kit.json', spoiled))
    await page.getByText('spoiled.kit.json was not opened. Your present kit is untouched.').waitFor()
    expect(await page.getByRole('alert').textContent()).toMatch(/heads\[0\]\.energyJ.*"all".*1 to 6400 J/)
    await open.setInputFiles(asFile('class.kit.json', kit))
    await page.getByRole('button', { name: '200 J head', exact: true }).focus()
    await page.keyboard.press('Enter')
    await type(page, '200 J head energy', '0')
    await page.getByRole('alert').filter({ hasText: 'expected 1 J to 6400 J, got 0 J' }).waitFor()
    await type(page, '200 J head energy', '250')
    await page.getByRole('button', { name: 'kit undo: 200 J head energy', exact: true }).waitFor()
    expect(await axeInBoth(page)).toEqual([])
    await page.getByRole('button', { name: 'A', exact: true }).first().click()
    await page.getByRole('button', { name: 'from the kit of A', exact: true }).press('Enter')
    await page.getByRole('combobox', { name: 'A head of the kit' }).selectOption({ label: '200 J head' })
    await page.getByRole('combobox', { name: 'A stand of the kit' }).selectOption({ label: 'medium stand' })
    expect(await shownIn(page, 'A head')).toBe('250 J')
    // Its dial is in numbers, 6.0 at full.
    await type(page, 'A power', '4.5')
    expect(await shownIn(page, 'A power')).toBe('4.5')
    await type(page, 'A tape', '1.65 m')
    await page.getByRole('button', { name: 'bright page', exact: true }).click()
    // At once: nothing waits for what is still unwritten.
    page = await host.again(page)
    expect(await shownIn(page, 'A tape')).toBe('1.65 m')
    expect(await undoButton(page).textContent()).toBe('undo')
    expect(await page.evaluate(() => document.documentElement.dataset.theme)).toBe('light')
    await page.getByRole('button', { name: 'kit', exact: true }).click()
    await page.getByRole('button', { name: '200 J head', exact: true }).click()
    expect(await shownIn(page, '200 J head energy')).toBe('250 J')
    await host.leave()
  })
})
