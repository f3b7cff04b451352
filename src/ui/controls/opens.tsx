import { type FocusEvent, type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react'
import { pressOnce } from '../press-once'

/** Of the window's edge, and of the word that opens it, px. */
const MARGIN_PX = 48

/** Between a list over a column and the column's end, px. */
const END_PX = 8

/** How high a list may be to be seen whole, px: by the column that it scrolls in, else by the window. */
function roomFor(list: HTMLElement): number {
  let column = list.parentElement
  while (column && !/auto|scroll/.test(getComputedStyle(column).overflowY)) column = column.parentElement
  // Under words that stand fast in the column it comes no higher however that is scrolled.
  if (column && isUnderFast(list))
    return column.getBoundingClientRect().bottom - list.getBoundingClientRect().top - END_PX
  // What stands fast at its upper edge leaves less.
  const fast = column ? Number.parseFloat(getComputedStyle(column).scrollPaddingTop) || 0 : 0
  return Math.max(2 * MARGIN_PX, (column?.clientHeight ?? window.innerHeight) - fast - MARGIN_PX)
}

const isUnderFast = (list: HTMLElement): boolean =>
  getComputedStyle(list).position === 'absolute' &&
  list.offsetParent !== null &&
  getComputedStyle(list.offsetParent).position === 'sticky'

/** A list that is longer than its room ends at a whole row, over a line that says that there is more. */
function endAtRow(list: HTMLElement): void {
  if (list.scrollHeight <= list.clientHeight + 1) return
  tellMore(list)
  list.style.paddingBottom = '0'
  const line = list.querySelector<HTMLElement>('.more-below')!
  const room = list.clientHeight - line.offsetHeight
  const whole = [...list.querySelectorAll('.word, p')]
    .filter((row) => row !== line)
    .map((row) => row.getBoundingClientRect().bottom - list.getBoundingClientRect().top - list.clientTop)
    .filter((bottom) => bottom <= room)
  if (whole.length > 0)
    list.style.setProperty('--whole', `${Math.max(...whole) + line.offsetHeight + 2 * list.clientTop}px`)
}

function tellMore(list: HTMLElement): void {
  list.dataset.below = String(list.scrollTop + list.clientHeight < list.scrollHeight - 1)
}

interface OpensProps {
  readonly word: string
  /** In full for a screen reader, where the word alone says too little; it begins with the word. */
  readonly named?: string
  /** Where the word may be cut. */
  readonly title?: string
  readonly toLeft?: boolean
  readonly className?: string
  /** Called with a function that closes the list. */
  children(close: () => void): ReactNode
}

/** A word under which a list opens in place. Escape, or leaving it, closes it; nothing is ever modal. */
export function Opens({ word, named, title, toLeft = false, className = '', children }: OpensProps) {
  const [open, setOpen] = useState(false)
  const button = useRef<HTMLButtonElement>(null)
  const list = useRef<HTMLDivElement>(null)
  // In a column that scrolls it may open below the edge, and be longer than the column: then it scrolls itself.
  useEffect(() => {
    const opened = list.current
    if (!open || !opened) return
    const place = () => {
      opened.style.setProperty('--room', `${roomFor(opened)}px`)
      endAtRow(opened)
      opened.scrollIntoView({ block: 'nearest' })
    }
    place()
    // Its words may be loaded after it.
    const filled = new MutationObserver(place)
    filled.observe(opened, { childList: true })
    return () => filled.disconnect()
  }, [open])
  const close = () => setOpen(false)
  /** What was chosen goes with the list: the focus comes back to the word. */
  const chosen = () => {
    button.current?.focus()
    close()
    pressOnce()
  }
  const leave = (event: FocusEvent<HTMLDivElement>) => {
    if (event.currentTarget.contains(event.relatedTarget)) return
    // Pressed elsewhere: the list stays until the click, or what is pressed would move away from under the pointer.
    if (document.querySelector(':active')) window.addEventListener('click', close, { once: true })
    else close()
  }
  const keyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || !open) return
    event.stopPropagation()
    chosen()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the handlers only close what the button inside opened
    <div className={`opens${toLeft ? ' to-left' : ''} ${className}`.trim()} onBlur={leave} onKeyDown={keyDown}>
      <button
        ref={button}
        type="button"
        className="word"
        aria-label={named}
        title={title}
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        <span>{word}</span>
      </button>
      {open && (
        <div className="list" ref={list} onScroll={() => tellMore(list.current!)}>
          {children(chosen)}
          <p className="more-below" aria-hidden="true">
            more below
          </p>
        </div>
      )}
    </div>
  )
}
