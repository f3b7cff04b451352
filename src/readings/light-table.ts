import {
  type Arrival,
  arrivalsAt,
  BATCHES,
  bounceBatch,
  litSources,
  type MeterScene,
  mirroredAt,
  type Probe,
  type Quality,
  received,
  SENDERS,
  type Sender,
  type Sent,
  summary,
  together,
  withMirrored,
} from '../meter'
import { type LuxSeconds, luminanceFromSrgb, type Receptor, type Rgb } from '../photometry'
import type { Rig, RigSource } from '../rig'
import { hash32, type Vec3 } from '../space'

/** Bounced light that was traced before, by probe: batches of means, one record a source, 1/m² at 1 cd·s, and how many paths each is the mean of. */
export type IndirectStore = ReadonlyMap<string, IndirectRecord>
export interface IndirectRecord {
  readonly sourceIds: readonly string[]
  /** Of each batch. */
  readonly paths: number
  readonly batches: readonly (readonly Sent[])[]
}

/** Light of one source at a place, at its set power: illuminance over the burst. */
export interface PlaceLight {
  readonly source: RigSource
  readonly direct: LuxSeconds
  /** null: not traced yet. */
  readonly indirect: LuxSeconds | null
  /** Of indirect, by what sent it on last. */
  readonly sent: Readonly<Record<Sender, LuxSeconds>>
  /** Standard error of indirect. */
  readonly error: LuxSeconds
}

export interface TablePlan {
  /** Paths that every probe gets in this pass; 0: only what the store holds. */
  readonly paths: number
  readonly store: IndirectStore
}

/** Readings ask this for light; it asks the meter once a place, and keeps what was traced. Powers as the document has them. */
export class LightTable {
  private readonly known: Known
  readonly quality: Quality
  private readonly indirect: Map<string, IndirectRecord>
  private readonly fresh = new Set<string>()
  readonly sources: readonly RigSource[]

  constructor(
    private readonly scene: MeterScene,
    private readonly plan: TablePlan,
  ) {
    this.indirect = new Map(plan.store)
    this.sources = litSources(scene.rig)
    this.quality = plan.paths > 0 ? 'settled' : 'draft'
    this.known = knownOf(scene.rig)
  }

  get store(): IndirectStore {
    return this.indirect
  }

  /** Pieces of a source's light at a point, with their visibility. */
  arrivals(source: RigSource, point: Vec3, quality = this.quality): readonly Arrival[] {
    const { seen, points } = this.known
    const place = `${source.id} ${point.join(' ')}`
    const key = `${quality} ${place}`
    const known = seen.get(key)
    if (known) return known
    const found = arrivalsAt(this.scene, source, point, quality)
    seen.set(key, found)
    points.set(place, { source, point })
    return found
  }

  /** Direct light of a source on one of many places that are told together: coarser than elsewhere while a hand moves. */
  oneOfMany(source: RigSource, { point, normal }: Probe, receptor: Receptor): LuxSeconds {
    const arrivals = this.arrivals(source, point, this.quality === 'draft' ? 'sketch' : this.quality)
    return received(arrivals, normal, receptor) * source.axialIntensity
  }

  /** Direct light of a source alone; shadowed false: as if nothing stood in its way. */
  direct(source: RigSource, { point, normal }: Probe, receptor: Receptor, shadowed = true): LuxSeconds {
    return received(this.arrivals(source, point), normal, receptor, shadowed) * source.axialIntensity
  }

  /** All that a receptor sees, source by source. id names the place in the store; it gets `times` the paths of others. */
  at(id: string, probe: Probe, receptor: Receptor, times = 1): readonly PlaceLight[] {
    const bounced = this.bounced(id, { probe, receptor, times })
    return this.sources.map((source, s) => {
      const { mean, sent, standardError } = bounced?.[s] ?? NOTHING
      const lit = (light: Rgb): LuxSeconds => luminanceFromSrgb(light) * source.axialIntensity
      const [boards, room, rest] = SENDERS.map((sender) => lit(sent[sender]))
      return {
        source,
        direct: this.direct(source, probe, receptor),
        indirect: bounced === null ? null : lit(mean),
        sent: { boards, room, rest },
        error: standardError * source.axialIntensity,
      }
    })
  }

  /** Works out, a piece a step, the light of every place that was asked for before in this rig: most of what will be asked. */
  *steps(): Generator<undefined, void> {
    const { points, places } = this.known
    for (const { source, point } of [...points.values()]) {
      this.arrivals(source, point)
      yield
    }
    if (this.plan.paths > 0) for (const [id, asked] of [...places]) yield* this.trace(id, asked)
  }

  private bounced(id: string, asked: AskedPlace) {
    this.known.places.set(id, asked)
    if (this.plan.paths > 0 && !this.fresh.has(id)) for (const _ of this.trace(id, asked));
    const record = this.indirect.get(id)
    if (!record) return null
    const mirrored = this.mirrored(asked)
    return this.sources.map((source, i) => {
      const s = record.sourceIds.indexOf(source.id)
      return s < 0 ? NOTHING : withMirrored(summary(record.batches.map((batch) => batch[s])), mirrored[i])
    })
  }

  /** Straight over a mirror: exact, so never traced. */
  private mirrored({ probe, receptor }: AskedPlace): readonly Rgb[] {
    const key = `${this.quality} ${receptor} ${probe.point.join(' ')} ${probe.normal.join(' ')}`
    const known = this.known.mirrored.get(key) ?? mirroredAt(this.scene, probe, receptor, this.sources, this.quality)
    this.known.mirrored.set(key, known)
    return known
  }

  private *trace(id: string, { probe, receptor, times }: AskedPlace): Generator<undefined, void> {
    const sourceIds = this.sources.map((source) => source.id)
    const before = this.indirect.get(id)
    const kept = before?.sourceIds.join() === sourceIds.join() ? before : null
    const after = kept?.paths ?? 0
    const paths = Math.ceil((times * this.plan.paths) / BATCHES)
    const traced: (readonly Sent[])[] = []
    for (let i = 0; i < BATCHES; i++) {
      // A batch goes on in its own sequence, which spreads paths more evenly than many short ones.
      const next = bounceBatch(this.scene, probe, receptor, { paths, after, seed: hash32(textHash(id), i) })
      traced.push(kept ? together(kept.batches[i]!, next, after / (after + paths)) : next)
      yield
    }
    this.indirect.set(id, { sourceIds, paths: after + paths, batches: traced })
    this.fresh.add(id)
  }
}

const BLACK: Rgb = [0, 0, 0]
const NOTHING = { mean: BLACK, sent: { boards: BLACK, room: BLACK, rest: BLACK }, standardError: 0 }

interface AskedPlace {
  readonly probe: Probe
  readonly receptor: Receptor
  /** Its share of paths, 1 being that of most places. */
  readonly times: number
}

/** Of one rig, which is never altered: direct light, which stays while the bounce is refined; and what was asked for. */
interface Known {
  readonly seen: Map<string, readonly Arrival[]>
  readonly points: Map<string, { readonly source: RigSource; readonly point: Vec3 }>
  readonly places: Map<string, AskedPlace>
  readonly mirrored: Map<string, readonly Rgb[]>
}

const knownByRig = new WeakMap<Rig, Known>()
function knownOf(rig: Rig): Known {
  const before = knownByRig.get(rig)
  if (before) return before
  const empty: Known = { seen: new Map(), points: new Map(), places: new Map(), mirrored: new Map() }
  knownByRig.set(rig, empty)
  return empty
}

const textHash = (text: string): number => [...text].reduce((h, c) => hash32(h, c.charCodeAt(0)), 0)

/** Direct and bounced light of all the given sources together. */
export const sumOf = (lights: readonly PlaceLight[]): LuxSeconds =>
  lights.reduce((sum, { direct, indirect }) => sum + direct + (indirect ?? 0), 0)
export const aloneOf = (lights: readonly PlaceLight[], sourceId: string): LuxSeconds =>
  sumOf(lights.filter(({ source }) => source.id === sourceId))
