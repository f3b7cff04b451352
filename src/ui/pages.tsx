import { type Page, setSession, useSession } from './store'

const PAGES: readonly Page[] = ['plan', 'readings', 'controls', 'takes', 'more']

/** The phone's bar of five words. */
export function Pages({ covered }: { covered: boolean }) {
  const page = useSession((session) => session.page)
  return (
    <nav className="pages" aria-label="Under the picture" inert={covered}>
      {PAGES.map((word) => (
        <button
          key={word}
          type="button"
          className="word"
          aria-pressed={word === page}
          onClick={() => setSession({ page: word })}
        >
          {word}
        </button>
      ))}
    </nav>
  )
}
