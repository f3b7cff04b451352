import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import react from '@vitejs/plugin-react'
import type { Plugin } from 'vite'
import { defineConfig } from 'vitest/config'
import { leftOut } from './src/commands/left-out.ts'
import { bareShaders, CHUNKS, threadsShareChunks, threeInParts } from './src/commands/one-graph.ts'
import { packedAgain } from './src/commands/packed-again.ts'
import { putDown } from './src/commands/put-down.ts'
import { unusedMethods } from './src/commands/unused-methods.ts'

/**
 * The page's security policy stands in index.html and holds for what is built. Vite's own server works with inline
 * scripts and styles, which the policy forbids, so there, and only there, it is left out.
 */
const policyOnlyWhenBuilt: Plugin = {
  name: 'policy-only-when-built',
  apply: 'serve',
  transformIndexHtml: (html) => html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, ''),
}

/** Writes the service worker beside the built page, with the list of all its files and a version that follows from what they hold. */
const worksOffline: Plugin = {
  name: 'works-offline',
  apply: 'build',
  writeBundle({ dir = 'dist' }) {
    const files = readdirSync(dir, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name !== 'sw.js')
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
    const hash = createHash('sha256')
    for (const file of files) hash.update(file.slice(dir.length)).update(readFileSync(file))
    const names = files.map((file) => `.${file.slice(dir.length).replaceAll('\\', '/')}`)
    const worker = readFileSync(new URL('src/ui/offline/service-worker.js', import.meta.url), 'utf8')
      .replace('__VERSION__', hash.digest('hex').slice(0, 16))
      .replace('__FILES__', JSON.stringify(names))
    writeFileSync(join(dir, 'sw.js'), worker)
  },
}

export default defineConfig({
  base: './',
  plugins: [
    react(),
    policyOnlyWhenBuilt,
    worksOffline,
    threadsShareChunks(),
    threeInParts,
    leftOut,
    putDown,
    bareShaders,
    unusedMethods(),
    packedAgain,
  ],
  worker: { format: 'es' },
  assetsInclude: ['**/*.glb'],
  build: {
    target: 'es2022',
    sourcemap: false,
    chunkSizeWarningLimit: 2000,
    rolldownOptions: { output: { codeSplitting: { groups: CHUNKS } } },
    // A script that loads another would ask the document for it first, and a thread has none.
    modulePreload: { resolveDependencies: (_, files, { hostType }) => (hostType === 'js' ? [] : files) },
  },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: ['tests/browser/**'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          // A worker a processor; modules are read and compiled once a worker. No file changes what another sees.
          isolate: false,
          maxWorkers: availableParallelism(),
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          testTimeout: 240_000,
          hookTimeout: 240_000,
          // Files of a worker share its browsers, server and built page; more workers would only wait for one another.
          isolate: false,
          maxWorkers: 2,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
