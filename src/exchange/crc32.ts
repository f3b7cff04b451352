/** Remainders of each byte by the polynomial 0xEDB88320 (reflected), [W3C PNG, third edition, annex D]. */
const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let c = byte
  for (let k = 0; k < 8; k++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1
  return c
})

/** CRC-32 as PNG, ZIP and gzip use it. */
export function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff
  for (const byte of bytes) c = TABLE[(c ^ byte) & 0xff] ^ (c >>> 8)
  return (c ^ 0xffffffff) >>> 0
}
