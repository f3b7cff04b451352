import { addCarried, carriedOf, isCarried, readCarried, removeThings, writeCarried } from '../sitting'
import { hasSitting, openLink } from './carry/link'
import { namesIn } from './controls/words'
import { openText } from './files'
import { currentSitting, edit, editAndHold, inHand, isCovered, setSession, useStore } from './store'

/** Text that is being written or was marked is the browser's own to copy and paste. */
function isText(): boolean {
  const { activeElement } = document
  if (activeElement instanceof HTMLInputElement || activeElement instanceof HTMLTextAreaElement) return true
  return (window.getSelection()?.toString() ?? '') !== '' || isCovered(useStore.getState().session)
}

/** What is in hand, as text that another set, another page or another day can take up. False: nothing of it can be carried. */
function toClipboard(event: ClipboardEvent): boolean {
  const carried = carriedOf(currentSitting(), inHand(useStore.getState().session))
  if (Object.values(carried).every((list) => list.length === 0)) return false
  event.clipboardData?.setData('text/plain', writeCarried(carried))
  event.preventDefault()
  return true
}

/** Copies what is in hand; with `cut`, takes it out of the set. */
const copying = (cut: boolean) => (event: ClipboardEvent) => {
  if (isText() || !toClipboard(event) || !cut) return
  // What went onto the clipboard goes; a camera in hand with it stays.
  const { sources, panels, objects } = carriedOf(currentSitting(), inHand(useStore.getState().session))
  const ids = [...sources, ...panels, ...objects].map(({ id }) => id)
  edit(`${namesIn(currentSitting(), ids)} cut out`, (sitting) => removeThings(sitting, ids))
}

/** Things come into the set and are in hand; a whole sitting is opened; other text is nothing of ours. */
function paste(event: ClipboardEvent): void {
  const text = event.clipboardData?.getData('text/plain') ?? ''
  if (isText()) return
  if (text.includes('"halfshade.sitting"')) {
    event.preventDefault()
    openText('What was pasted', text)
  } else if (hasSitting(text)) {
    event.preventDefault()
    void openLink(text)
  } else if (isCarried(text)) {
    event.preventDefault()
    pasteThings(text)
  }
}

export function pasteThings(text: string): void {
  const read = readCarried(text)
  if ('problems' in read) {
    setSession({
      notice: { title: 'What was pasted was not taken. The sitting is as it was.', problems: read.problems },
    })
    return
  }
  editAndHold('things pasted', (sitting) => addCarried(sitting, read.carried))
}

/** Control or Command with C, X and V, for as long as the page is there. Gives back what ends it. */
export function watchClipboard(): () => void {
  const [copy, cut] = [copying(false), copying(true)]
  document.addEventListener('copy', copy)
  document.addEventListener('cut', cut)
  document.addEventListener('paste', paste)
  return () => {
    document.removeEventListener('copy', copy)
    document.removeEventListener('cut', cut)
    document.removeEventListener('paste', paste)
  }
}
