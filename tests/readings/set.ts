import { readFileSync } from 'node:fs'
import { readFigureAsset } from '../../src/figure'
import { defaultModifier } from '../../src/gear'
import { bodiesOf } from '../../src/meter'
import { createRayCaster } from '../../src/rays'
import {
  type IndirectStore,
  type Reading,
  type ReadingsInput,
  type ReadingsOutput,
  takeReadings,
  type Units,
} from '../../src/readings'
import { createRigBuilder } from '../../src/rig'
import { firstSitting, type Sitting, type Source } from '../../src/sitting'
import type { Vec3 } from '../../src/space'

const asset = readFigureAsset(new Uint8Array(readFileSync(new URL('../../assets/sitter.glb', import.meta.url))))

// One builder and one caster for all, as the page has them: a posed sitter is made once.
const buildRig = createRigBuilder({ figure: asset })
const caster = createRayCaster([])

/** Eyes of the sets below: seated. */
export const EYE_M = 1.2

type Extra = Partial<Sitting> & { readonly sitter?: Partial<Sitting['sitters'][number]> }

/** A sitter square to the lens in a black room, nothing else: what comes on top is given by each test. */
export function setOf(sources: readonly Source[], { sitter = {}, ...rest }: Extra = {}): Sitting {
  const first = firstSitting()
  return {
    ...first,
    sitters: [{ ...first.sitters[0], headTurnDeg: 0, eyeHeightM: EYE_M, ...sitter }],
    sources,
    panels: [],
    backdrop: null,
    meterPlaces: [],
    room: { ...first.room, wallReflectance: 0, ceilingReflectance: 0, floorReflectance: 0 },
    ...rest,
  }
}

/** Where the figure's cheek at camera right lies in these sets; the other one is its mirror image. */
export const cheek = (): Vec3 => buildRig(setOf([])).figures[0].posed.landmarks.cheekLeft.position
export const nose = (): Vec3 => buildRig(setOf([])).figures[0].posed.landmarks.noseTip.position

/** A lamp round the eyes: degrees from the lens axis (to camera right) and above the eye line, metres from the eyes. */
export function lamp(
  letter: string,
  {
    az = 0,
    el = 0,
    d = 2,
    modifier = defaultModifier('dish'),
    ...rest
  }: Partial<Source> & { az?: number; el?: number; d?: number } = {},
): Source {
  const [a, e] = [(az * Math.PI) / 180, (el * Math.PI) / 180]
  return {
    ...firstSitting().sources[0],
    id: `source-${letter}`,
    letter,
    role: 'key',
    modifier,
    centreM: [d * Math.cos(e) * Math.sin(a), EYE_M + d * Math.sin(e), d * Math.cos(e) * Math.cos(a)],
    aimM: [0, EYE_M, 0],
    ...rest,
  }
}

export interface Taken extends ReadingsOutput {
  of(id: string): Reading
  value(id: string): number
}

/** What readings are taken of; the caster stands for the latest one alone. */
export function inputOf(sitting: Sitting): ReadingsInput {
  const rig = buildRig(sitting)
  const bodies = bodiesOf(rig)
  caster.update(bodies.bodies)
  return { sitting, rig, bodies, caster }
}

export function take(sitting: Sitting, paths = 0, units: Units = 'metres', indirect?: IndirectStore): Taken {
  const output = takeReadings({ ...inputOf(sitting), paths, units, ...(indirect && { indirect }) })
  const of = (id: string) => {
    const found = output.readings.find((reading) => reading.id === id)
    if (!found)
      throw new Error(`no reading ${id}; there are ${output.readings.map((reading) => reading.id).join(', ')}`)
    return found
  }
  const value = (id: string) => {
    const { value: v, sentence } = of(id)
    if (typeof v !== 'number') throw new Error(`${id} is ${v}: ${sentence}`)
    return v
  }
  return { ...output, of, value }
}

/** Stops between two f-numbers: N² goes with the light. */
export const stopsBetween = (from: number, to: number): number => 2 * Math.log2(to / from)

/** The trade's table of patterns: degrees round from the nose and up, on the average head; common practice, no source. */
export const PATTERNS = [
  [0, 10, 'flat'],
  [5, 40, 'butterfly'],
  [30, 35, 'loop'],
  [38, 32, 'loop'],
  [52, 42, 'Rembrandt'],
  [90, 10, 'split'],
  [140, 20, 'rim'],
] as const
