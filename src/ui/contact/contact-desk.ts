import { create } from 'zustand'
import figureUrl from '../../../assets/sitter.glb?url'
import type { LessonLook } from '../../lesson'
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
  /** Of each source in it. */
  readonly samples: number
  /** Its picture has all its samples. */
  readonly finished: boolean
  readonly readings: readonly Reading[] | null
  /** What stands in its picture, in words; null: nothing, or not read yet. */
  readonly inFrame: string | null
  /** How a source of it reaches into a wall, in words; null: none does, or not read yet. */
  readonly walls: string | null
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
  samples: 0,
  finished: false,
  readings: null,
  inFrame: null,
  walls: null,
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

/** Rests so long before it ends, ms: who shuts one comparison often opens another of the same sets. */
const LINGERS_MS = 10_000
/** Pictures and numbers of earlier rows that are kept while the thread lives. */
const MOST_KEPT = 32

/** What a row had of a set, for whoever asks for the same set in the same look again. */
interface Kept {
  readonly row: Row
  readonly place: number
  readonly cell: Cell
}

/**
 * The page's end of the contact sheet's desk: a thread that lives while somebody has something drawn, and a little longer. Who asked last
 * is served; once that is closed, who asked before is served again.
 */
class ContactDesk {
  private worker: Worker | null = null
  private room: WardrobeRoom | null = null
  private run = 0
  private row: Row | null = null
  private claims: readonly { readonly by: Claimant; readonly row: Row }[] = []
  /** Of rows before, newest first. */
  private kept: readonly Kept[] = []
  private ending: ReturnType<typeof setTimeout> | undefined

  /** Reads and draws these, in order; what was under way is dropped, what is there already stays. isLast: after all others, whenever they ask. */
  show(by: Claimant, row: Row, isLast = false): void {
    const isKnown = this.claims.some((claim) => claim.by === by)
    const claim = { by, row }
    if (isKnown) this.claims = this.claims.map((one) => (one.by === by ? claim : one))
    else this.claims = isLast ? [claim, ...this.claims] : [...this.claims, claim]
    if (this.claims.at(-1)!.by === by) this.serve(row)
  }

  close(by: Claimant): void {
    const served = this.claims.at(-1)
    this.claims = this.claims.filter((claim) => claim.by !== by)
    const next = this.claims.at(-1)
    if (next && served?.by === by) this.serve(next.row)
    else if (!next) this.rest()
  }

  /** A set in a look as it was drawn before, in whatever size; null: it was not. */
  drawn(sitting: Sitting, look: LessonLook): Cell | null {
    const { cells } = useContact.getState()
    const now = this.row ? keptOf(this.row, cells) : []
    return [...now, ...this.kept].find((kept) => isOf(kept, sitting, look))?.cell ?? null
  }

  private serve(row: Row): void {
    clearTimeout(this.ending)
    this.run++
    const { cells } = useContact.getState()
    const all = this.row ? [...keptOf(this.row, cells), ...this.kept] : this.kept
    const begun = row.sittings.map((_, i) => begins(all, row, i))
    this.kept = all.slice(0, MOST_KEPT)
    const stays = [...begun, ...this.kept.map(({ cell }) => cell)]
    for (const { cell } of all.slice(MOST_KEPT))
      if (!stays.some(({ bitmap }) => bitmap === cell.bitmap)) cell.bitmap?.close()
    this.row = row
    useContact.setState({ cells: begun, of: row.sittings, fault: null })
    this.worker ??= this.start()
    this.send()
  }

  /** Draws nothing more; what was drawn stays for a while. */
  private rest(): void {
    const { row } = this
    // What stopped is to begin anew.
    if (!row || useContact.getState().fault) {
      this.end()
      return
    }
    this.serve({ ...row, sittings: [], looks: undefined, exposedBy: null })
    useContact.setState({ of: null })
    this.ending = setTimeout(() => this.end(), LINGERS_MS)
  }

  private end(): void {
    this.worker?.terminate()
    this.worker = this.room = this.row = null
    useContact.setState({ cells: [], of: null, fault: null })
    for (const { cell } of this.kept) cell.bitmap?.close()
    this.kept = []
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
      const { readings, inFrame, walls, exposure, rays, settled } = answer
      this.put(answer.index, { readings, inFrame, walls, exposure, rays, settled })
    } else {
      const { bitmap, samples, finished, widthMm, span, plate } = answer
      this.put(answer.index, { bitmap, samples, finished, widthMm, span, plate })
    }
  }

  private put(index: number, change: Partial<Cell>): void {
    const { cells } = useContact.getState()
    const cell = cells[index]
    // What was read or drawn further before is not shown roughly again.
    const isBehind = !cell || (cell.finished && change.finished === false) || (cell.settled && change.settled === false)
    if (isBehind) {
      change.bitmap?.close()
      return
    }
    const isRougher = change.bitmap && !change.finished && finenessOf(change) < finenessOf(cell)
    if (isRougher) change.bitmap?.close()
    else if (change.bitmap && !this.isKept(cell.bitmap, index)) cell.bitmap?.close()
    const { widthMm = null, span = null, plate = null } = change
    const put = isRougher ? { widthMm, span, plate } : change
    useContact.setState({ cells: cells.map((one, i) => (i === index ? { ...one, ...put } : one)) })
  }

  private isKept(bitmap: ImageBitmap | null, index: number): boolean {
    const others = useContact.getState().cells.filter((_, i) => i !== index)
    return [...others, ...this.kept.map(({ cell }) => cell)].some((cell) => cell.bitmap === bitmap)
  }
}

/** How much has gone into a picture: pixels times samples. */
export const finenessOf = ({ bitmap, samples = 0 }: { bitmap?: { width: number } | null; samples?: number }): number =>
  bitmap ? bitmap.width ** 2 * samples : 0

/** Places in the order in which they are read; where all are exposed by one of them, that one is read first in any case. */
function inTurn({ sittings, exposedBy }: Row, first: number | undefined): readonly number[] {
  const places = sittings.map((_, i) => i)
  if (exposedBy !== null || first === undefined || first < 0) return places
  return [first, ...places.filter((i) => i !== first)]
}

const lookOf = ({ looks }: Row, place: number): LessonLook | null => (looks ? looks[place]! : 'camera')

/** What of a row is worth keeping: what is exposed by its own set. */
const keptOf = (row: Row, cells: readonly Cell[]): readonly Kept[] =>
  row.exposedBy === null
    ? cells.flatMap((cell, place) => (cell.bitmap || cell.readings ? [{ row, place, cell }] : []))
    : []

const isOf = ({ row, place }: Kept, sitting: Sitting, look: LessonLook | null): boolean =>
  row.sittings[place] === sitting && lookOf(row, place) === look

/** With what a cell begins: all of it where just this was drawn before; the picture alone where it was drawn in another size. */
function begins(all: readonly Kept[], row: Row, place: number): Cell {
  if (row.exposedBy !== null) return EMPTY
  const own = all.filter((kept) => isOf(kept, row.sittings[place]!, lookOf(row, place)))
  const same = own.find(
    ({ row: before }) =>
      before.width === row.width &&
      before.whole === row.whole &&
      before.quick === row.quick &&
      before.units === row.units,
  )
  if (same) return same.cell
  const [other] = own.sort((a, b) => finenessOf(b.cell) - finenessOf(a.cell))
  return other ? { ...EMPTY, bitmap: other.cell.bitmap, samples: other.cell.samples } : EMPTY
}

export const contactDesk = new ContactDesk()
