/** npm start: installs what is missing, builds, serves on this machine only, prints the address. */
import { fileURLToPath } from 'node:url'
import { ensureInstalled } from './install.mjs'

const root = fileURLToPath(new URL('../..', import.meta.url))
try {
  ensureInstalled(root)
  const { build, preview } = await import('vite')
  await build({ root, logLevel: 'warn' })
  const server = await preview({ root, logLevel: 'warn', preview: { host: '127.0.0.1', port: 4173 } })
  console.log(`Halfshade is at ${server.resolvedUrls.local[0]}   (Ctrl+C ends it)`)
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exit(1)
}
