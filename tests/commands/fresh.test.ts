import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, expect, test, vi } from 'vitest'
// @ts-expect-error plain JavaScript: it runs before npm has installed
import { needChromium } from '../../src/commands/chromium.mjs'
// @ts-expect-error as above
import { ensureInstalled } from '../../src/commands/install.mjs'

/** What `npm start` and `npm test` do on a machine with nothing but Node. */
const folder = mkdtempSync(join(tmpdir(), 'fresh-'))
afterEach(() => {
  vi.unstubAllEnvs()
  vi.restoreAllMocks()
  rmSync(folder, { recursive: true, force: true })
})

test('an older Node is refused with the version that is needed; 20.19 is not', () => {
  const running = (version: string) =>
    vi.spyOn(process, 'versions', 'get').mockReturnValue({ ...process.versions, node: version })
  for (const version of ['18.20.4', '20.18.9']) {
    const spy = running(version)
    expect(() => ensureInstalled(folder)).toThrow(`Node 20.19 or newer is needed; this is ${version}.`)
    spy.mockRestore()
  }
  mkdirSync(join(folder, 'node_modules'), { recursive: true })
  for (const file of ['package-lock.json', 'node_modules/.package-lock.json']) writeFileSync(join(folder, file), '{}')
  utimesSync(join(folder, 'package-lock.json'), 1, 1)
  for (const version of ['20.19.0', '22.0.0']) {
    const spy = running(version)
    // Installed after the lock file was written: nothing is fetched.
    expect(ensureInstalled(folder)).toBeUndefined()
    spy.mockRestore()
  }
})

test('a browser is taken from CHROMIUM, or from the path; one that is not there is told', () => {
  mkdirSync(folder, { recursive: true })
  const own = join(folder, 'chromium')
  vi.stubEnv('CHROMIUM', own)
  expect(() => needChromium()).toThrow(`CHROMIUM: expected the path of a browser, got ${own}, which does not exist`)
  writeFileSync(own, '#!/bin/sh\n', { mode: 0o755 })
  expect(needChromium()).toBe(own)
  if (process.platform === 'win32') return
  vi.stubEnv('CHROMIUM', '')
  vi.stubEnv('PATH', `${folder}:${process.env.PATH}`)
  expect(needChromium()).toBe(own)
})

const isDebianRoot = process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')

test.runIf(isDebianRoot)('on Debian as root a browser that is missing is installed with apt-get', () => {
  mkdirSync(folder, { recursive: true })
  vi.spyOn(console, 'log').mockImplementation(() => undefined)
  const log = join(folder, 'log')
  const browser = join(folder, 'chromium')
  const apt = `#!/bin/sh\necho "$@" >> ${log}\n[ "$1" = update ] || { echo '#!/bin/sh' > ${browser}; /bin/chmod 755 ${browser}; }\n`
  writeFileSync(join(folder, 'apt-get'), apt, { mode: 0o755 })
  symlinkSync('/bin/sh', join(folder, 'sh'))
  vi.stubEnv('CHROMIUM', '')
  vi.stubEnv('PATH', folder)
  expect(needChromium()).toBe(browser)
  expect(readFileSync(log, 'utf8')).toMatch(/^update -qq\ninstall -y .* chromium\n$/)
})
