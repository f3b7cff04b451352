import { expect } from 'vitest'
import type { PosedFigure } from '../../src/figure'

const bytes = ({ buffer }: Float32Array) => Buffer.from(buffer)

/** The same numbers throughout, what is worked out when asked for too. */
export function expectSamePosed(a: PosedFigure, b: PosedFigure): void {
  const plain = ({ parts: _, ...rest }: PosedFigure) => rest
  expect(plain(a)).toEqual(plain(b))
  expect(a.parts.length).toBe(b.parts.length)
  a.parts.forEach(({ name, mesh }, i) => {
    for (const list of ['positions', 'normals'] as const)
      expect(Buffer.compare(bytes(mesh[list]), bytes(b.parts[i].mesh[list])), `${name}, ${list}`).toBe(0)
  })
}
