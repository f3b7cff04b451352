import { beforeEach, expect, test, vi } from 'vitest'
import { addHead, removeEntry, takeHead } from '../../src/kit'
import { addSource, firstSitting, moveSource, setPower, writeSitting } from '../../src/sitting'
import { openText } from '../../src/ui/files'
import { editKit, undoKit, updateSitting, useKitHistory } from '../../src/ui/kit/kit-store'
import { keepDesk } from '../../src/ui/storage'
import {
  choose,
  currentSitting,
  edit,
  editAndSelect,
  pictureBy,
  redo,
  restore,
  select,
  setSession,
  undo,
  useStore,
} from '../../src/ui/store'

const session = () => useStore.getState().session
const keyId = () => currentSitting().sources[0].id

beforeEach(() => restore(firstSitting(), {}))

test('a drag of many changes is one step back, and undo gives the very sitting again', () => {
  const before = currentSitting()
  for (let i = 1; i <= 20; i++)
    edit('A moved', (sitting) => moveSource(sitting, keyId(), [0.5 + i / 100, 1.8, 0.6]), 'drag 1')
  expect(useStore.getState().history.past.map(({ name }) => name)).toEqual(['A moved'])
  const after = currentSitting()
  undo()
  expect(currentSitting()).toBe(before)
  redo()
  expect(currentSitting()).toBe(after)
})

test('a refused edit changes nothing and says place, range and what to do', () => {
  const before = currentSitting()
  expect(edit('A power', (sitting) => setPower(sitting, keyId(), -11))).toBe(false)
  expect(currentSitting()).toBe(before)
  const [problem] = session().notice?.problems ?? []
  expect(problem).toMatchObject({ path: 'powerStops', got: '-11' })
  expect(problem.expected).toMatch(/to 0 stops/)
  edit('A power', (sitting) => setPower(sitting, keyId(), -3))
  expect(session().notice).toBeNull()
})

test('a bug in an edit is not swallowed', () => {
  expect(() => edit('A moved', (sitting) => moveSource(sitting, 'nobody', [0, 1, 1]))).toThrow(/no sources with id/)
})

test('what is added is selected; when it is undone the selection goes to something that is there', () => {
  editAndSelect('source added', (sitting) => addSource(sitting))
  const added = session().selected
  expect(currentSitting().sources.at(-1)?.id).toBe(added)
  setSession({ solo: added })
  undo()
  expect(session().selected).toBe(keyId())
  expect(session().solo).toBeNull()
})

test('what was taken back is told until something else is in hand', () => {
  edit('A power', (sitting) => setPower(sitting, keyId(), -3))
  select('camera')
  expect(session().went).toBe(1)
  undo()
  expect(session().went).toBe(-1)
  choose(keyId())
  expect(session().went).toBe(0)
  redo()
  expect(session().went).toBe(1)
})

test('a broken file leaves the work as it is and shows path, expected, got, advice', () => {
  const before = currentSitting()
  const broken = writeSitting(before).replace(/"energyJ": \d+/, '"energyJ": "half"')
  expect(openText('hall.sitting.json', broken)).toBe(false)
  expect(currentSitting()).toBe(before)
  expect(session().notice?.title).toContain('hall.sitting.json was not opened')
  expect(session().notice?.problems[0]).toMatchObject({ path: 'sources[0].head.energyJ', got: '"half"' })
  expect(session().notice?.problems[0].advice).not.toBe('')
})

test('an opened file is one step: undo brings the former work back', () => {
  const before = currentSitting()
  const other = { ...before, title: 'Other' }
  expect(openText('other.sitting.json', writeSitting(other))).toBe(true)
  expect(currentSitting()).toEqual(other)
  select('camera')
  undo()
  expect(currentSitting()).toBe(before)
  expect(session().selected).toBe('camera')
})

test('the kit on the device is written only once it has been edited here', async () => {
  vi.useFakeTimers()
  const put: string[][] = []
  const end = keepDesk(async (records) => {
    put.push(Object.keys(records))
  })
  const quiet = () => vi.advanceTimersByTimeAsync(1000)
  try {
    edit('A power', (sitting) => setPower(sitting, keyId(), -3))
    await quiet()
    editKit('a head added', (kit) => addHead(kit).kit)
    await quiet()
    edit('A power', (sitting) => setPower(sitting, keyId(), -2))
    await quiet()
    undoKit()
    await quiet()
  } finally {
    end()
    vi.useRealTimers()
  }
  expect(put.map((keys) => keys.includes('kit'))).toEqual([false, true, false, true])
  // So is the sitting, as another tab may have written its own.
  expect(put.map((keys) => keys.includes('sitting'))).toEqual([true, false, true, false])
})

test('a sitting updated from the kit tells what was copied and what the kit lacks', () => {
  updateSitting()
  expect(session().notice?.title).toBe('No source of this sitting is of a kit.')
  editKit('a head added', (kit) => addHead(kit).kit)
  const { present } = useKitHistory.getState().history
  const { id } = present.heads.at(-1)!
  edit('A head', (sitting) => takeHead(sitting, keyId(), present, id))
  updateSitting()
  expect(session().notice?.title).toMatch(/^From the kit, A: head "head \d+"\.$/)
  editKit('removed', (kit) => removeEntry(kit, id))
  updateSitting()
  expect(session().notice?.title).toBe(`Not in the kit, A: head ${id}.`)
  undoKit()
  undoKit()
})

test('takes are compared by flash and sharp, whatever else the picture shows by', () => {
  setSession({ blurred: true, byModelling: true })
  expect(pictureBy(session())).toEqual({ blurred: true, byModelling: true })
  setSession({ wipe: { left: { name: 'take 1', sitting: session().opened }, right: null, at: 50 } })
  expect(pictureBy(session())).toEqual({ blurred: false, byModelling: false })
  setSession({ wipe: null })
  expect(pictureBy(session()).byModelling).toBe(true)
})
