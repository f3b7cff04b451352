/** How vite builds the bare page that `picture` drives; called by picture.ts with an output folder. */
import { fileURLToPath } from 'node:url'

const here = fileURLToPath(new URL('.', import.meta.url))

export default {
  root: here,
  base: './',
  logLevel: 'error',
  publicDir: false,
  build: { target: 'es2022', rollupOptions: { input: `${here}picture-page.html` } },
}
