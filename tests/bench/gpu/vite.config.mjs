/** Builds the pages that run.mjs, ../path-tracer/run.mjs and ../path-tracer/rooms.mjs drive: npx vite build -c tests/bench/gpu/vite.config.mjs */
import { fileURLToPath } from 'node:url'

const path = (relative) => fileURLToPath(new URL(relative, import.meta.url))

export default {
  root: path('..'),
  base: './',
  logLevel: 'warn',
  publicDir: false,
  build: {
    target: 'es2022',
    outDir: path('../../../out/bench'),
    emptyOutDir: true,
    chunkSizeWarningLimit: 4000,
    rollupOptions: {
      input: [path('picture.html'), path('../path-tracer/judge.html'), path('../path-tracer/rooms.html')],
    },
  },
}
