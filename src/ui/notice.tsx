import { type Notice, setSession } from './store'

/** What could not be done: place, found, wanted, to do. It stands among the readings; the sitting is untouched. */
export function NoticeView({ notice }: { notice: Notice }) {
  const words = [
    notice.title,
    ...notice.problems.map((p) => `${p.path}: expected ${p.expected}, got ${p.got}. ${p.advice}`),
  ]
  return (
    <div className="notice" role="alert">
      <p className="first">{notice.title}</p>
      {notice.problems.slice(0, 3).map((problem) => (
        <dl key={`${problem.path} ${problem.expected}`}>
          <dt>place</dt>
          <dd>{problem.path || 'the whole file'}</dd>
          <dt>found</dt>
          <dd>{problem.got}</dd>
          <dt>wanted</dt>
          <dd>{problem.expected}</dd>
          <dt>to do</dt>
          <dd>{problem.advice}</dd>
        </dl>
      ))}
      {notice.problems.length > 3 && <p>{notice.problems.length - 3} more of the kind.</p>}
      <div className="actions">
        <button type="button" className="word under" onClick={() => setSession({ notice: null })}>
          close
        </button>
        <button
          type="button"
          className="word under"
          onClick={() => navigator.clipboard?.writeText(words.join('\n')).catch(() => undefined)}
        >
          copy this
        </button>
      </div>
    </div>
  )
}
