import { Component, type ReactNode } from 'react'

/** What the page is built with tells of a part of it that could not be fetched. */
const NOT_FETCHED = 'vite:preloadError'

interface Missing {
  /** A part of the page could not be fetched. */
  readonly missing: boolean
  /** And what it belongs to cannot be shown without it. */
  readonly stopped: boolean
}

/** Whether an error is that of a browser which did not get a part of the page; each has its own words for it. */
export const isNotFetched = (error: unknown): boolean =>
  error instanceof Error &&
  /dynamically imported module|importing a module script failed|unable to preload|failed to load module/i.test(
    error.message,
  )

/**
 * Parts of the page are fetched when they are asked for. Once the host has a newer build, an older page's parts are gone: then it says so
 * in place of a black page. Any other error is not its own.
 */
export class Renewed extends Component<{ readonly children: ReactNode }, Missing> {
  override state: Missing = { missing: false, stopped: false }

  static getDerivedStateFromError(error: unknown): Missing {
    if (!isNotFetched(error)) throw error
    return { missing: true, stopped: true }
  }

  override componentDidMount(): void {
    window.addEventListener(NOT_FETCHED, this.tell)
  }

  override componentWillUnmount(): void {
    window.removeEventListener(NOT_FETCHED, this.tell)
  }

  private readonly tell = (): void => this.setState({ missing: true })

  override render(): ReactNode {
    const { missing, stopped } = this.state
    return (
      <>
        {missing && <Told />}
        {!stopped && this.props.children}
      </>
    )
  }
}

const Told = () => (
  <div className="renewed" role="alert">
    <p>
      {navigator.onLine
        ? 'This page has been renewed since it was opened: reload it to go on.'
        : 'A part of this page could not be fetched, as there is no network: connect, then reload.'}{' '}
      Your work is kept in this browser.
    </p>
    <button type="button" className="word under" onClick={() => location.reload()}>
      reload
    </button>
  </div>
)
