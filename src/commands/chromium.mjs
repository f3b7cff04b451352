/**
 * Finds a browser for the tests and for `picture`: an installed Chrome, Chromium or Edge. On Debian as root it can be
 * installed with apt; elsewhere the person is told what to install. Plain JavaScript: it runs before npm has installed.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge', 'msedge']
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
  'C:\\Program Files\\Microsoft\\Edge\\Application\\msedge.exe',
]

/** Flags for WebGL2 in software, headless, so that every machine draws the same picture. */
export const SOFTWARE_FLAGS = [
  '--no-sandbox',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
]

/** Path of a browser, or null. The environment variable CHROMIUM goes before everything found. */
function findChromium() {
  if (process.env.CHROMIUM) {
    if (!existsSync(process.env.CHROMIUM))
      throw new Error(`CHROMIUM: expected the path of a browser, got ${process.env.CHROMIUM}, which does not exist`)
    return process.env.CHROMIUM
  }
  return onPath() ?? PLACES.find((place) => existsSync(place)) ?? null
}

function onPath() {
  if (process.platform === 'win32') return null
  for (const name of NAMES) {
    const found = spawnSync('sh', ['-c', `command -v ${name}`], { encoding: 'utf8' })
    if (found.status === 0) return found.stdout.trim()
  }
  return null
}

/** As findChromium; installs Debian's chromium when run as root there. Throws a sentence that says what to install. */
export function needChromium() {
  const found = findChromium()
  if (found) return found
  if (process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get')) {
    console.log('No browser found: installing chromium with apt-get.')
    const quiet = { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }
    execFileSync('apt-get', ['update', '-qq'], quiet)
    execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet)
    const installed = findChromium()
    if (installed) return installed
  }
  throw new Error(
    'No browser found. Install Google Chrome, Chromium or Microsoft Edge, or set CHROMIUM to the path of one.',
  )
}
