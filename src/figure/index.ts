/** figure: the sitter: sculpt generator, landmarks, pose. Metres, head-local frame. Imports space. */
export * from './types'
