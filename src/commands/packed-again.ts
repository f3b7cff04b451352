import { minify } from 'terser'
import type { Plugin } from 'vite'

/** Chunks that the first view fetches and that are worth the time. */
const FIRST_VIEW = /^(index|set|render|readings|light|three|three-values)$/

/** What the builder has minified is packed once more by terser, which finds some hundredth that it leaves. */
export const packedAgain: Plugin = {
  name: 'packed-again',
  apply: 'build',
  enforce: 'post',
  async generateBundle(_, bundle) {
    const chunks = Object.values(bundle).filter((part) => part.type === 'chunk' && FIRST_VIEW.test(part.name))
    await Promise.all(
      chunks.map(async (chunk) => {
        if (chunk.type !== 'chunk') return
        const packed = await minify(chunk.code, { module: true, ecma: 2022, compress: { ecma: 2022, passes: 2 } })
        chunk.code = packed.code ?? chunk.code
      }),
    )
  },
}
