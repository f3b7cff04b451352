import { create } from 'zustand'
import figureUrl from '../../../assets/sitter.glb?url'
import type { Reading } from '../../readings'
import type { Sitting } from '../../sitting'
import { fetchAsset, WardrobeRoom } from '../wardrobe'
import type { ContactAnswer, ContactOrder } from './protocol'

/** What has come of one variant. */
export interface Cell {
  readonly bitmap: ImageBitmap | null
  /** Its picture has all its samples. */
  readonly finished: boolean
  readonly readings: readonly Reading[] | null
  readonly settled: boolean
}

interface ContactState {
  readonly cells: readonly Cell[]
  /** Why there are no pictures, or no numbers, in words. */
  readonly fault: string | null
}

const EMPTY: Cell = { bitmap: null, finished: false, readings: null, settled: false }

export const useContact = create<ContactState>(() => ({ cells: [], fault: null }))

type Row = Omit<Extract<ContactOrder, { kind: 'row' }>, 'kind' | 'run'>

/** The page's end of the contact sheet's desk: a thread that lives while the sheet is open. */
class ContactDesk {
  private worker: Worker | null = null
  private room: WardrobeRoom | null = null
  private run = 0
  private row: Row | null = null

  /** Reads and draws these, in order; what was under way is dropped. */
  show(row: Row): void {
    this.run++
    this.row = row
    this.clear(row.sittings.map(() => EMPTY))
    this.worker ??= this.start()
    this.send()
  }

  close(): void {
    this.worker?.terminate()
    this.worker = this.room = this.row = null
    this.clear([])
  }

  private send(): void {
    const { row, run } = this
    if (row?.sittings.every((sitting: Sitting) => this.room?.has(sitting))) this.tell({ kind: 'row', run, ...row })
  }

  private tell(order: ContactOrder): void {
    this.worker?.postMessage(order)
  }

  private start(): Worker {
    const worker = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module', name: 'contact' })
    const fail = (why: string) =>
      useContact.setState({ fault: `The contact sheet stopped: ${why} Close it and open it again.` })
    worker.onmessage = ({ data }: MessageEvent<ContactAnswer>) => this.take(data)
    worker.onerror = (event) => fail(event.message || 'its thread did not start.')
    this.room = new WardrobeRoom(
      (name, bytes) => {
        this.tell({ kind: 'worn', name, bytes })
        this.send()
      },
      (error) => fail(String(error)),
    )
    fetchAsset(figureUrl).then(
      (bytes) => worker.postMessage({ kind: 'figure', bytes } satisfies ContactOrder),
      (error) => fail(String(error)),
    )
    return worker
  }

  private take(answer: ContactAnswer): void {
    if (answer.kind === 'failed') {
      useContact.setState({ fault: answer.words })
      return
    }
    if (answer.run !== this.run) {
      if (answer.kind === 'sketch') answer.bitmap.close()
      return
    }
    if (answer.kind === 'read') this.put(answer.index, { readings: answer.readings, settled: answer.settled })
    else this.put(answer.index, { bitmap: answer.bitmap, finished: answer.finished })
  }

  private put(index: number, change: Partial<Cell>): void {
    const { cells } = useContact.getState()
    if (change.bitmap) cells[index]?.bitmap?.close()
    useContact.setState({ cells: cells.map((cell, i) => (i === index ? { ...cell, ...change } : cell)) })
  }

  private clear(cells: readonly Cell[]): void {
    for (const { bitmap } of useContact.getState().cells) bitmap?.close()
    useContact.setState({ cells, fault: null })
  }
}

export const contactDesk = new ContactDesk()
