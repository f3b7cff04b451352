import { availableParallelism } from 'node:os'
import react from '@vitejs/plugin-react'
import type { Plugin } from 'vite'
import { defineConfig } from 'vitest/config'

/**
 * The page's security policy stands in index.html and holds for what is built. Vite's own server works with inline
 * scripts and styles, which the policy forbids, so there, and only there, it is left out.
 */
const policyOnlyWhenBuilt: Plugin = {
  name: 'policy-only-when-built',
  apply: 'serve',
  transformIndexHtml: (html) => html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, ''),
}

export default defineConfig({
  base: './',
  plugins: [react(), policyOnlyWhenBuilt],
  worker: { format: 'es' },
  assetsInclude: ['**/*.glb'],
  build: { target: 'es2022', sourcemap: false, chunkSizeWarningLimit: 2000 },
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
