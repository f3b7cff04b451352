import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

/** Every key in brackets has its entry in SOURCES.md, and every entry is cited somewhere. */
const code = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name)
    if (statSync(path).isDirectory()) return code(path)
    return /\.(ts|glsl)$/.test(name) ? [readFileSync(path, 'utf8')] : []
  })
const entries = new Set(
  [...readFileSync('src/photometry/SOURCES.md', 'utf8').matchAll(/^- \*\*\[(\w+)\]\*\*/gm)].map((match) => match[1]!),
)
const comments = (text: string): string =>
  [...text.matchAll(/\/\*[\s\S]*?\*\/|\/\/.*/g)].map((match) => match[0]).join('\n')
const cited = new Set(
  [...code('src/photometry'), ...code('src/camera')].flatMap((text) =>
    [...comments(text).matchAll(/\[([A-Za-z]{2,}\d*)\]/g)].map((match) => match[1]!),
  ),
)

test('every cited source has an entry', () => {
  expect(cited.size).toBeGreaterThan(30)
  expect([...cited].filter((key) => !entries.has(key))).toEqual([])
})

test('every entry is cited in the code', () => {
  const everywhere = code('src').join('\n')
  expect([...entries].filter((key) => !everywhere.includes(`[${key}]`))).toEqual([])
})
