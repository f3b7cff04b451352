import { Unzlib } from 'fflate'

/** Bytes of input handed over at a time: one piece can unpack to a thousand times its size before the limit is looked at. */
const PIECE = 16 * 1024

/** Unpacks a zlib stream of at most `limit` bytes of content. Throws where there is more, or where the stream is damaged. */
export function inflateWithin(packed: Uint8Array, limit: number): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = []
  let size = 0
  const stream = new Unzlib((part) => {
    parts.push(part)
    size += part.length
  })
  for (let at = 0; at === 0 || at < packed.length; at += PIECE) {
    stream.push(packed.subarray(at, at + PIECE), at + PIECE >= packed.length)
    if (size > limit) throw new Error(`exchange.inflateWithin: the packed text is longer than ${limit} bytes`)
  }
  const out = new Uint8Array(size)
  let at = 0
  for (const part of parts) {
    out.set(part, at)
    at += part.length
  }
  return out
}
