import { expect, test } from 'vitest'
import { unusedMethods } from '../../src/commands/unused-methods'

/** Two modules of what is built, as the builder hands them over. */
const built = (library: string, ours: string) => ({
  chunks: {
    a: {
      modules: { '/node_modules/three/src/math/Thing.js': { code: library }, '/src/render/ours.ts': { code: ours } },
    },
  },
})

/** The class as it is after the build, made and ready to be asked. */
async function classAfter(library: string, ours: string): Promise<new () => Record<string, unknown>> {
  const { renderChunk } = unusedMethods() as { renderChunk: (...args: unknown[]) => { code: string } }
  const { code } = renderChunk(library, { name: 'three' }, {}, built(library, ours))
  return new Function(`${code}; return Thing`)()
}

const THING = `class Thing {
  constructor() { this.given = function () { return 1 }; this.taken = function () { return 2 } }
  used() { return this.inner() }
  inner() { return 3 }
  unused() { return this.onlyThere() }
  onlyThere() { return 4 }
  get seen() { return 5 }
  ['put' + 'Together']() { return 6 }
  toJSON() { return this.toJSON }
}`

test('of a library’s classes the build keeps what is named somewhere, and what that names in turn', async () => {
  const Thing = await classAfter(THING, 'thing.used(); thing.given(); const { seen } = thing')
  const thing = new Thing()
  for (const name of ['used', 'inner', 'given', 'putTogether']) expect(thing[name], name).toBeTypeOf('function')
  expect(thing.seen).toBe(5)
  for (const name of ['unused', 'onlyThere', 'taken', 'toJSON']) expect(thing[name], name).toBeUndefined()
})

test('a name in a text counts: it may be put into brackets', async () => {
  const Thing = await classAfter(THING, "thing['unused']()")
  expect(new Thing().unused).toBeTypeOf('function')
  expect(new Thing().onlyThere).toBeTypeOf('function')
})
