import { create } from 'zustand'
import figureUrl from '../../../assets/sitter.glb?url'
import type { EdgeRays, Reading } from '../../readings'
import type { Sitting } from '../../sitting'
import type { ShownExposure } from '../desks/protocol'
import type { EdgeSpan } from '../looks/edge-span'
import type { ShownPlate } from '../picture/protocol'
import { fetchAsset, WardrobeRoom } from '../wardrobe'
import type { ContactAnswer, ContactOrder } from './protocol'

/** What has come of one variant. */
export interface Cell {
  readonly bitmap: ImageBitmap | null
  /** Its picture has all its samples. */
  readonly finished: boolean
  readonly readings: readonly Reading[] | null
  /** By which it was read; null: not yet. */
  readonly exposure: ShownExposure | null
  readonly settled: boolean
  /** Across a crop, millimetres; null: no crop, or not yet. */
  readonly widthMm: number | null
  /** Where the edge is measured in an edge crop; null: none, or not yet. */
  readonly span: EdgeSpan | null
  /** Its light, where it is counted out; null: not, or not yet. */
  readonly plate: ShownPlate | null
  /** What makes the edge of the nose shadow; null: there is none, or not yet. */
  readonly rays: EdgeRays | null
}

interface ContactState {
  readonly cells: readonly Cell[]
  /** Whose they are; null: nobody's. */
  readonly of: readonly Sitting[] | null
  /** Why there are no pictures, or no numbers, in words. */
  readonly fault: string | null
}

const EMPTY: Cell = {
  bitmap: null,
  finished: false,
  readings: null,
  exposure: null,
  settled: false,
  widthMm: null,
  span: null,
  plate: null,
  rays: null,
}

export const useContact = create<ContactState>(() => ({ cells: [], of: null, fault: null }))

type Row = Omit<Extract<ContactOrder, { kind: 'row' }>, 'kind' | 'run' | 'places'> & {
  /** Place of the one that is wanted before the others, which are told against it; left out: in order. */
  readonly first?: number | undefined
}

/** A part of the page that has variants drawn. */
export type Claimant = symbol

/**
 * The page's end of the contact sheet's desk: a thread that lives while somebody has something drawn. Who asked last is served; once
 * that is closed, who asked before is served again.
 */
class ContactDesk {
  private worker: Worker | null = null
  private room: WardrobeRoom | null = null
  private run = 0
  private row: Row | null = null
  private claims: readonly { readonly by: Claimant; readonly row: Row }[] = []

  /** Reads and draws these, in order; what was under way is dropped, what is there already stays. */
  show(by: Claimant, row: Row): void {
    const isKnown = this.claims.some((claim) => claim.by === by)
    this.claims = isKnown
      ? this.claims.map((claim) => (claim.by === by ? { by, row } : claim))
      : [...this.claims, { by, row }]
    if (this.claims.at(-1)!.by === by) this.serve(row)
  }

  close(by: Claimant): void {
    const served = this.claims.at(-1)
    this.claims = this.claims.filter((claim) => claim.by !== by)
    const next = this.claims.at(-1)
    if (next && served?.by === by) this.serve(next.row)
    else if (!next) this.end()
  }

  private serve(row: Row): void {
    const before = this.row
    this.run++
    this.row = row
    const { cells } = useContact.getState()
    this.clear(
      row.sittings.map((_, i) => cells[before ? samePlace(before, row, i) : -1] ?? EMPTY),
      row.sittings,
    )
    this.worker ??= this.start()
    this.send()
  }

  private end(): void {
    this.worker?.terminate()
    this.worker = this.room = this.row = null
    this.clear([])
  }

  private send(): void {
    const { row, run } = this
    if (!row?.sittings.every((sitting: Sitting) => this.room?.has(sitting))) return
    const { cells } = useContact.getState()
    const isDone = (i: number) => cells[i]?.settled && (cells[i].finished || row.looks?.[i] === null)
    const { first, ...asked } = row
    const places = inTurn(row, first).filter((i) => row.exposedBy !== null || !isDone(i))
    const of = <T>(all: readonly T[]) => places.map((i) => all[i]!)
    this.tell({ kind: 'row', run, ...asked, sittings: of(row.sittings), looks: row.looks && of(row.looks), places })
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
    if (answer.kind === 'read') {
      const { readings, exposure, rays, settled } = answer
      this.put(answer.index, { readings, exposure, rays, settled })
    } else {
      const { bitmap, finished, widthMm, span, plate } = answer
      this.put(answer.index, { bitmap, finished, widthMm, span, plate })
    }
  }

  private put(index: number, change: Partial<Cell>): void {
    const { cells } = useContact.getState()
    // What was finished in an earlier row is not shown roughly again.
    if ((cells[index]?.finished && change.finished === false) || (cells[index]?.settled && change.settled === false)) {
      change.bitmap?.close()
      return
    }
    if (change.bitmap) cells[index]?.bitmap?.close()
    useContact.setState({ cells: cells.map((cell, i) => (i === index ? { ...cell, ...change } : cell)) })
  }

  private clear(cells: readonly Cell[], of: readonly Sitting[] | null = null): void {
    for (const { bitmap } of useContact.getState().cells)
      if (!cells.some((kept) => kept.bitmap === bitmap)) bitmap?.close()
    useContact.setState({ cells, of, fault: null })
  }
}

/** Places in the order in which they are read; where all are exposed by one of them, that one is read first in any case. */
function inTurn({ sittings, exposedBy }: Row, first: number | undefined): readonly number[] {
  const places = sittings.map((_, i) => i)
  if (exposedBy !== null || first === undefined || first < 0) return places
  return [first, ...places.filter((i) => i !== first)]
}

/** Where the row before had the same picture; −1: nowhere. */
function samePlace(before: Row, { sittings, looks, width, units, exposedBy, whole }: Row, i: number): number {
  if (
    before.whole !== whole ||
    before.width !== width ||
    before.units !== units ||
    before.exposedBy !== null ||
    exposedBy !== null
  )
    return -1
  return before.sittings.findIndex((sitting, j) => sitting === sittings[i] && before.looks?.[j] === looks?.[i])
}

export const contactDesk = new ContactDesk()
