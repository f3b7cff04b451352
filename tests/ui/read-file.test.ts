/** A file of more than 64 MB is told and not read, wherever the page takes files. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test, vi } from 'vitest'
import { photoFrom } from '../../src/ui/carry/day-store'
import { openFile } from '../../src/ui/files'
import { openLampFile } from '../../src/ui/lamp-files'
import { bytesOf, readText, sizeProblem, textOf } from '../../src/ui/read-file'
import { useStore } from '../../src/ui/store'

/** Says how large it is, and fails whoever reads it. */
function fake(megabytes: number): File {
  const read = () => {
    throw new Error('it was read')
  }
  return { name: 'big.json', size: megabytes * 2 ** 20, text: read, arrayBuffer: read, stream: read } as unknown as File
}
const TOLD = 'big.json: expected at most 64 MB, got 65 MB. Open a smaller file.'

test('up to 64 MB a file is read, past it not a byte', async () => {
  expect(sizeProblem(fake(64))).toBeNull()
  expect(sizeProblem(fake(65))).toMatchObject({ expected: 'at most 64 MB', got: '65 MB' })
  await expect(textOf(fake(65))).rejects.toThrow(TOLD)
  await expect(bytesOf(fake(65))).rejects.toThrow(TOLD)
  // The day's photo; the backup, which is told as the photo is.
  await expect(photoFrom(fake(65))).rejects.toThrow(TOLD)
})

test('a lesson, a draft, a kit and a lamp are told in their own place, and nothing is opened', async () => {
  const [open, refuse] = [vi.fn(), vi.fn()]
  await readText(fake(65), open, refuse)
  expect(open).not.toHaveBeenCalled()
  expect(refuse.mock.calls).toEqual([[TOLD]])
  await readText(new File(['{}'], 'small.json'), open, refuse)
  expect(open.mock.calls).toEqual([['small.json', '{}']])
  await openLampFile(fake(65), 'key')
  expect(useStore.getState().session.notice?.title).toBe(`Not opened, nothing is changed. ${TOLD}`)
  await openFile(fake(65))
  expect(useStore.getState().session.notice).toMatchObject({ problems: [{ expected: 'at most 64 MB', got: '65 MB' }] })
})

test('no other part of the page reads a file', () => {
  const parts = readdirSync('src/ui', { recursive: true, encoding: 'utf8' }).filter((name) => /\.tsx?$/.test(name))
  const readers = parts.filter((name) =>
    /\bfile\.(?:text|arrayBuffer|stream)\(/.test(readFileSync(join('src/ui', name), 'utf8')),
  )
  expect(readers).toEqual(['read-file.ts'])
})
