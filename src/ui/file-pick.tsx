import { useRef } from 'react'

interface FilePickProps {
  readonly word: string
  /** In full for a screen reader; it begins with the word. */
  readonly named?: string
  /** What the dialog of files shows first. */
  readonly accept: string
  onFile(file: File): void
}

/** A word that asks for a file. */
export function FilePick({ word, named, accept, onFile }: FilePickProps) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <button type="button" className="word" aria-label={named} onClick={() => input.current?.click()}>
        {word}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept={accept}
        aria-label={named ?? word}
        onChange={(event) => {
          const file = event.currentTarget.files?.[0]
          event.currentTarget.value = ''
          if (file) onFile(file)
        }}
      />
    </>
  )
}
