import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect } from 'vitest'
import { readingsCommand } from '../../src/commands/readings-command'
import type { Reading } from '../../src/readings'
import { type Sitting, writeSitting } from '../../src/sitting'

/** Calls with the name of a file that holds the sitting. */
export async function withFile<T>(sitting: Sitting, use: (file: string) => T | Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'trust-'))
  try {
    const file = join(folder, 'set.sitting.json')
    writeFileSync(file, writeSitting(sitting))
    return await use(file)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

export interface Told {
  readonly readings: readonly Reading[]
  value(id: string): number
  of(id: string): Reading
}
/** A file in, `readings FILE --json` out, and nothing else of ours in between. paths: of bounced light at each place. */
export const told = (sitting: Sitting, paths = 0): Promise<Told> =>
  withFile(sitting, async (file) => {
    const { code, out, err } = await readingsCommand([file, '--json', '--paths', `${paths}`])
    expect({ code, err }).toEqual({ code: 0, err: '' })
    return answer(out)
  })

export function answer(out: string): Told {
  const { readings } = JSON.parse(out) as { readonly readings: readonly Reading[] }
  const of = (id: string) => {
    const found = readings.find((reading) => reading.id === id)
    if (!found) throw new Error(`the command told nothing of ${id}`)
    return found
  }
  return { readings, of, value: (id) => Number(of(id).value ?? Number.NaN) }
}
