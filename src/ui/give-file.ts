/** So long a browser that is slow to begin may fetch what it was given, ms. */
const FETCHED_MS = 60_000

/** A text or bytes as a file on the person's disk. */
export function giveFile(name: string, content: string | Uint8Array, type = 'application/json'): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }))
  const link = document.createElement('a')
  link.href = url
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(url), FETCHED_MS)
}

export const fileStem = (title: string): string =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'sitting'
