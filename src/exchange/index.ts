/**
 * exchange: outside formats to and from plain values: PNG with text, OpenEXR with layers.
 * In: bytes, or pixels (sRGB bytes for PNG, linear sRGB floats for EXR; rows from the top). Out: bytes, or values.
 */
export * from './exr'
export { type RgbPicture, readPngText, writePng } from './png'
