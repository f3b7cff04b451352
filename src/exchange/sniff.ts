import { isExr } from './exr'
import { isPng } from './png'

/** What a dropped file is, by its content first and its name last. */
export type FileKind = 'sitting' | 'json' | 'png' | 'exr' | 'ies' | 'eulumdat' | 'unknown'

/** Bytes looked at when the file is text. */
const HEAD = 64 * 1024

/** Judges the beginning of a file (all of it, or at least the first 64 KiB). name: as the file was called. */
export function sniffFile(bytes: Uint8Array, name: string): FileKind {
  if (isPng(bytes)) return 'png'
  if (isExr(bytes)) return 'exr'
  const text = textOf(bytes)
  if (text === null) return 'unknown'
  // LM-63: the first line names the edition; the oldest edition has none, but every file has a TILT line.
  if (/^IES(NA)?[:\d]/.test(text) || /^TILT=/m.test(text)) return 'ies'
  if (/^\s*[{[]/.test(text)) return /"format"\s*:\s*"halfshade\.sitting"/.test(text) ? 'sitting' : 'json'
  // EULUMDAT has no mark of its own; its second and third line are small whole numbers.
  if (/\.ldt$/i.test(name) && /^[^\n]*\r?\n\s*[1-3]\s*\r?\n\s*[0-4]\s*\r?\n/.test(text)) return 'eulumdat'
  return 'unknown'
}

function textOf(bytes: Uint8Array): string | null {
  const head = bytes.subarray(0, HEAD)
  if (head.includes(0)) return null
  return new TextDecoder().decode(head)
}
