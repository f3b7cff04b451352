import { create } from 'zustand'
import { emptyKit, type Kit, readKit, updateFromKit, writeKit } from '../../kit'
import { EditRefused, type History, recordStep, redo, startHistory, undo } from '../../sitting'
import { fileStem, giveFile } from '../give-file'
import { currentSitting, edit, setSession } from '../store'

/** What the person owns, with steps of its own to undo; it goes from sitting to sitting and is kept on the device. */
export const useKitHistory = create<{ readonly history: History<Kit> }>(() => ({ history: startHistory(emptyKit()) }))

export const useKit = (): Kit => useKitHistory((store) => store.history.present)
export const currentKit = (): Kit => useKitHistory.getState().history.present

/** One change of the kit, named for undo. A refused edit changes nothing and is told in place; false then. */
export function editKit(name: string, change: (kit: Kit) => Kit): boolean {
  const { history } = useKitHistory.getState()
  try {
    useKitHistory.setState({ history: recordStep(history, name, change(history.present)) })
    return true
  } catch (error) {
    if (!(error instanceof EditRefused)) throw error
    setSession({ notice: { title: `${name}: not done. The kit is as it was.`, problems: [error.problem] } })
    return false
  }
}

export const undoKit = (): void => useKitHistory.setState(({ history }) => ({ history: undo(history) }))
export const redoKit = (): void => useKitHistory.setState(({ history }) => ({ history: redo(history) }))
export const restoreKit = (kit: Kit): void => useKitHistory.setState({ history: startHistory(kit) })

/** Opens the text of a kit file as one step; what is wrong with it is told in place, and the present kit stays. */
export function openKit(name: string, text: string): boolean {
  const result = readKit(text)
  if ('problems' in result) {
    setSession({
      notice: { title: `${name} was not opened. Your present kit is untouched.`, problems: result.problems },
      page: 'readings',
    })
    return false
  }
  editKit(`${name} opened`, () => result.kit)
  setSession({ selected: 'kit' })
  return true
}

/** Copies what the sitting has of the kit anew, as one step, and tells what was copied, what the kit lacks and what did not go. */
export function updateSitting(): void {
  const { sitting, from, missing, refused } = updateFromKit(currentSitting(), currentKit())
  edit('updated from the kit', () => sitting)
  const words = [
    ...(from.length > 0 ? [`From the kit, ${from.join('; ')}.`] : []),
    ...(missing.length > 0 ? [`Not in the kit, ${missing.join('; ')}.`] : []),
    ...refused.map((line) => `Not taken from the kit, ${line}`),
  ]
  const title = words.join(' ') || 'No source of this sitting is of a kit.'
  setSession({ notice: { title, problems: [] }, page: 'readings' })
}

export const saveKit = (): void => giveFile(`${fileStem(currentKit().title)}.kit.json`, writeKit(currentKit()))
