/**
 * exchange: outside formats to and from plain values: PNG with text, OpenEXR with layers; measured lamps (IES LM-63, EULUMDAT); text packed for a link.
 * In: bytes, or pixels (sRGB bytes for PNG, linear sRGB floats for EXR; rows from the top). Out: bytes, or values.
 */

export { crc32 } from './crc32'
export { readEulumdat } from './eulumdat'
export * from './exr'
export { readIes } from './ies'
export { isPng } from './is-png'
export * from './packed-text'
export { PhotometricFileError, type PhotometricLamp } from './photometric'
export { type RgbPicture, readPngText, writePng } from './png'
export { readPng } from './png-pixels'
