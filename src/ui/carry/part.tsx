import { type ReactNode, useId, useState } from 'react'

interface PartProps {
  readonly title: string
  readonly says: string
  readonly children: ReactNode
}

/** One part of the page: its title, a sentence, and what can be done. */
export function Part({ title, says, children }: PartProps) {
  const id = useId()
  return (
    <section className="carry-part" aria-labelledby={id}>
      <h3 id={id}>{title}</h3>
      <p>{says}</p>
      {children}
    </section>
  )
}

/** What is being done or was done, in words; and a way to do something that is told so, also where it fails. */
export function useTold(): readonly [string, (words: string, work: () => Promise<string>) => void] {
  const [told, setTold] = useState('')
  const doing = (words: string, work: () => Promise<string>) => {
    setTold(words)
    work().then(setTold, (error: unknown) =>
      setTold(`Not done: ${error instanceof Error ? error.message : String(error)}`),
    )
  }
  return [told, doing]
}
