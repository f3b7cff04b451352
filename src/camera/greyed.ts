/** Shares of red, green and blue in luma [ITU-R BT.709-6, item 3.2]. */
const LUMA = [0.2126, 0.7152, 0.0722] as const

/** Red, green and blue codes of pixels as greys by the luma of the codes: near enough for a small print. Three a pixel in and out. */
export function greyed(rgb: ArrayLike<number>): Uint8Array {
  const grey = new Uint8Array(rgb.length)
  for (let i = 0; i < rgb.length; i += 3)
    grey.fill(Math.round(LUMA[0] * rgb[i]! + LUMA[1] * rgb[i + 1]! + LUMA[2] * rgb[i + 2]!), i, i + 3)
  return grey
}
