/** Nothing that a person made goes by another document laid over it: in the visit by undo, after it by what the device keeps. */
import { beforeEach, expect, test, vi } from 'vitest'
import { addStep, dropStep } from '../../src/lesson'
import { firstSitting, readSitting, type Sitting, undoName, writeSitting } from '../../src/sitting'
import { type Earlier, resumed } from '../../src/ui/earlier'
import { beginDraft, draftNow, editDraft, redoDraft, undoDraft } from '../../src/ui/lesson/draft'
import { setLesson } from '../../src/ui/lesson/lesson-store'
import { allWritten, type DeskRecords, keepDesk } from '../../src/ui/storage'
import { currentSitting, edit, openSitting, restore, undo } from '../../src/ui/store'

const titled = (title: string): Sitting => ({ ...firstSitting(), title })
const read = (text: string) => {
  const result = readSitting(text)
  return 'sitting' in result ? result.sitting : null
}

beforeEach(() => restore(firstSitting(), {}))

/** The page is left and loaded again. */
function reload({ sitting, earlier }: { sitting: string; earlier: readonly Earlier[] }): void {
  const present = read(sitting)!
  restore(present, {}, resumed(present, sitting, earlier, read))
}

/** What lies on the device after all of these were written over each other. */
const onDevice = (puts: readonly DeskRecords[]) => {
  const { sitting, earlier = [] } = Object.assign({}, ...puts) as Required<DeskRecords>
  return { sitting, earlier }
}

test('own work under a link is a step away after a reload, also when much else was opened over it', async () => {
  const puts: DeskRecords[] = []
  const end = keepDesk(async (records) => void puts.push(records))
  try {
    edit('own work', () => titled('mine'))
    openSitting(titled('of a link'), 'The link opened')
    for (let i = 0; i < 30; i++) openSitting(titled(`ready ${i % 5}`), `ready ${i % 5} opened`)
    edit('more', () => titled('mine again'))
    await allWritten()
    const before = puts.length
    await allWritten()
    expect(puts.length).toBe(before)
  } finally {
    end()
  }
  reload(onDevice(puts))
  expect(currentSitting().title).toBe('mine again')
  const titles: string[] = []
  for (let i = 0; i < 12; i++) {
    undo()
    titles.push(currentSitting().title)
  }
  expect(titles).toContain('mine')
  expect(titles).toContain('of a link')
})

test('a device that refuses is not left: what waits for the write hears of it', async () => {
  const end = keepDesk(() => Promise.reject(new Error('full')))
  try {
    edit('own work', () => titled('mine'))
    await expect(allWritten()).rejects.toThrow('full')
  } finally {
    end()
  }
})

test('a record that is no list of sittings, or holds one that cannot be read, hides nothing of the present one', () => {
  const present = writeSitting(titled('mine'))
  reload({ sitting: present, earlier: [{ name: 'opened', text: '{"format":"other"}' }] })
  expect(currentSitting().title).toBe('mine')
  undo()
  expect(currentSitting().title).toBe('mine')
})

test('a new lesson, and a step that is removed, can be taken back', () => {
  vi.stubGlobal('localStorage', { getItem: () => null, setItem: () => undefined, removeItem: () => undefined })
  try {
    setLesson({ draft: null })
    editDraft('predict added', (lesson) => addStep(lesson, 'predict', 'face.pattern'))
    editDraft('step 1 removed', (lesson) => dropStep(lesson, 0))
    expect(draftNow().present.steps).toEqual([])
    expect(undoName(draftNow())).toBe('step 1 removed')
    undoDraft()
    const { present } = draftNow()
    expect(present.steps.length).toBe(1)
    beginDraft()
    expect(draftNow().present.steps).toEqual([])
    undoDraft()
    expect(draftNow().present).toBe(present)
    redoDraft()
    expect(draftNow().present).not.toBe(present)
  } finally {
    vi.unstubAllGlobals()
  }
})
