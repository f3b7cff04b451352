import { expect, test } from 'vitest'
import { sniffFile, writeExr, writePng } from '../../src/exchange'

const text = (content: string) => new TextEncoder().encode(content)

test.each([
  ['sitting', text('{\n  "format": "halfshade.sitting",\n "version": 1 }'), 'a.txt'],
  ['json', text('[1, 2]'), 'a.json'],
  ['png', writePng({ width: 1, height: 1, rgb: new Uint8Array(3) }), 'a'],
  ['exr', writeExr({ width: 1, height: 1, layers: [{ name: '', rgb: new Float32Array(3) }] }), 'a'],
  // First lines by edition, and TILT= in all: ANSI/IESNA LM-63-2002, LM-63-1995 and older.
  ['ies', text('IESNA:LM-63-2002\r\n[TEST] x\r\nTILT=NONE\r\n'), 'lamp.dat'],
  ['ies', text('IESNA91\n[TEST] x\nTILT=NONE\n'), 'lamp.ies'],
  ['ies', text('Some lamp\nTILT=NONE\n1 -1 1'), 'lamp.ies'],
  // Line 2 Ityp 1 to 3, line 3 Isym 0 to 4: EULUMDAT, Stockmar 1990.
  ['eulumdat', text('Maker\r\n2\r\n1\r\n24\r\n15\r\n'), 'lamp.LDT'],
  ['unknown', text('Maker\r\n2\r\n1\r\n24\r\n15\r\n'), 'lamp.txt'],
  ['unknown', Uint8Array.of(0, 1, 2, 3), 'a.sitting.json'],
  ['unknown', new Uint8Array(0), ''],
])('%s by content', (kind, bytes, name) => {
  expect(sniffFile(bytes, name)).toBe(kind)
})
