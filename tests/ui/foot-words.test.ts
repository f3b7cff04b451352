import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readFigureAsset } from '../../src/figure'
import { assembleRig } from '../../src/rig'
import { firstSitting, moveSource, setBackdrop, swapModifier } from '../../src/sitting'
import { footWords } from '../../src/ui/controls/foot-words'

const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const words = (sitting: ReturnType<typeof firstSitting>) =>
  footWords(sitting, assembleRig(sitting, { figure }), 'key', 'metres')

test('a stand by two tapes: a right-angled triangle of 3, 4 and 5, and the side it is on', () => {
  // X lies at 0, 0 and Z 3.00 m behind it: a lamp plumb over 4.00 m right of X is 5.00 m from Z (Pythagoras). The lamp hangs on its
  // face: a dish that is aimed level along −x carries it further to the right by its own depth, which the words must hold as well.
  const set = setBackdrop(firstSitting(), { distanceM: 3 })
  const at = moveSource(swapModifier(set, 'key', 'bare-bulb'), 'key', [4, 2, 0])
  const [, x, z, off] = /: ([\d.]+) m from X, ([\d.]+) m from Z, ([\d.]+) m right of their line/.exec(words(at) ?? '')!
  expect(Number(x) ** 2 + 3 ** 2).toBeCloseTo(Number(z) ** 2, 0)
  expect(Number(off)).toBeCloseTo(Number(x), 1)
  expect(Number(x)).toBeGreaterThan(3.7)
  expect(Number(x)).toBeLessThan(4.4)
})

test('what has no stand says nothing of one', () => {
  const set = firstSitting()
  expect(words(swapModifier(set, 'key', 'on-camera-flash'))).toBeNull()
  expect(words(swapModifier(set, 'key', 'sun'))).toBeNull()
  expect(footWords(set, null, 'key', 'metres')).toBeNull()
})
