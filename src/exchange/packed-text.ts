import { zlibSync } from 'fflate'
import { inflateWithin } from './inflate'

/** A text that a link can carry after its #: zlib in base64url (RFC 4648 §5, without padding). */

/** Longest packed text that is read, characters, and longest text that it may hold, bytes. */
const MOST_PACKED = 2 ** 20
const MOST_TEXT = 4 * 2 ** 20

export function packText(text: string): string {
  const bytes = zlibSync(new TextEncoder().encode(text), { level: 9 })
  let letters = ''
  for (const byte of bytes) letters += String.fromCharCode(byte)
  return btoa(letters).replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '')
}

/** The text again. Throws with what is wrong: too long, cut short, or damaged (zlib's own check sum, RFC 1950). */
export function unpackText(packed: string): string {
  if (packed.length > MOST_PACKED)
    throw new Error(`exchange.unpackText: expected at most ${MOST_PACKED} characters, got ${packed.length}`)
  if (!/^[\w-]+$/.test(packed)) throw new Error('exchange.unpackText: expected letters, figures, - and _ alone')
  let letters: string
  try {
    letters = atob(packed.replace(/-/g, '+').replace(/_/g, '/'))
  } catch {
    throw new Error('exchange.unpackText: the text is cut short')
  }
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0))
  const plain = inflateWithin(bytes, MOST_TEXT)
  if (plain.length === 0 || adler32(plain) !== lastFour(bytes))
    throw new Error('exchange.unpackText: the text is damaged (its check sum fails)')
  return new TextDecoder('utf-8', { fatal: true }).decode(plain)
}

const lastFour = (bytes: Uint8Array): number =>
  bytes.length < 4 ? -1 : new DataView(bytes.buffer, bytes.byteOffset + bytes.length - 4, 4).getUint32(0)

/** RFC 1950 §9. */
function adler32(bytes: Uint8Array): number {
  let [a, b] = [1, 0]
  for (const byte of bytes) {
    a = (a + byte) % 65521
    b = (b + a) % 65521
  }
  return ((b << 16) | a) >>> 0
}
