/** Installs the packages of the lock file when they are missing or older than it. Runs with nothing but Node. */
import { spawnSync } from 'node:child_process'
import { existsSync, statSync } from 'node:fs'
import { join } from 'node:path'

const OLDEST = [20, 19]

export function ensureInstalled(root) {
  const [major, minor] = process.versions.node.split('.').map(Number)
  if (major < OLDEST[0] || (major === OLDEST[0] && minor < OLDEST[1]))
    throw new Error(`Node ${OLDEST.join('.')} or newer is needed; this is ${process.versions.node}.`)
  const mark = join(root, 'node_modules', '.package-lock.json')
  if (existsSync(mark) && statSync(mark).mtimeMs >= statSync(join(root, 'package-lock.json')).mtimeMs) return
  console.log('Installing packages …')
  run(root, 'npm', ['ci', '--no-fund', '--no-audit', '--loglevel=error'])
}

/** Runs a program in root with its output shown; throws on a non-zero end. */
export function run(root, program, args) {
  const done = spawnSync(program, args, { cwd: root, stdio: 'inherit', shell: process.platform === 'win32' })
  if (done.status !== 0) throw new Error(`${[program, ...args].join(' ')} ended with ${done.status ?? done.signal}`)
}

/** Path of a package's own program, so that no shell or PATH is needed. */
export const binary = (root, name) => join(root, 'node_modules', '.bin', name)
