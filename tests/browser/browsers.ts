/**
 * One browser of a kind for all files that a worker runs: each start costs seconds, and shaders that one page compiled need
 * no compiling in the next. They end with the worker.
 */
import { type Browser, chromium } from 'playwright-core'
// @ts-expect-error plain JavaScript, shared with scripts that run before npm has installed
import { needChromium, SOFTWARE_FLAGS } from '../../src/commands/chromium.mjs'

const browsers = new Map<string, Promise<Browser>>()

/** Launches what is not there yet, or there no longer. */
export async function browserWith(flags: readonly string[] = SOFTWARE_FLAGS): Promise<Browser> {
  const key = flags.join(' ')
  const known = await browsers.get(key)?.catch(() => null)
  if (known?.isConnected()) return known
  const launched = chromium.launch({ executablePath: needChromium(), args: [...flags] })
  browsers.set(key, launched)
  return launched
}
