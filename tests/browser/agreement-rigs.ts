/** Sets that can be answered by hand, told as plain values so that Node and the browser build the same. Metres. */
import { buildModifier, defaultModifier } from '../../src/gear'
import {
  BARE_DOME_FLUX,
  boxProfile,
  boxTransmittance,
  type Canopy,
  type CosineDisc,
  canopy,
  cosineDisc,
  type Emission,
  lobeTable,
  type UniformSurface,
  uniformSurface,
} from '../../src/photometry'
import type { Material, Rig, RigSource, Surface, View } from '../../src/rig'
import { frameTowards, type Vec3 } from '../../src/space'
import { room } from '../bounce/fixtures'
import { rigs } from '../render/rigs'

export type EmissionOrder =
  | ({ readonly profile: 'uniform' } & UniformSurface)
  | ({ readonly profile: 'canopy' } & Canopy)
  | ({ readonly profile: 'beam' } & CosineDisc)
  /** One front cloth: width, height, depth. */
  | { readonly profile: 'box'; readonly sizeM: Vec3 }
  /** The lit face of a kind of gear, or another of its emitters, with its defaults but for some fields. */
  | {
      readonly profile: 'kind'
      readonly kind: string
      readonly change?: Readonly<Record<string, string | number>>
      readonly emitter?: number
    }

export interface SourceOrder {
  readonly emission: EmissionOrder
  readonly centre: Vec3
  readonly aim: Vec3
  readonly axialIntensity?: number
}

export interface RigOrder {
  readonly sources: readonly SourceOrder[]
  readonly room?: { readonly sizeM: Vec3; readonly reflectance: number }
  readonly cards?: readonly {
    readonly centre: Vec3
    readonly towards: Vec3
    readonly halfM: number
    readonly reflectance: number
  }[]
  /** Whose front is a mirror of that reflectance. */
  readonly mirror?: { readonly centre: Vec3; readonly towards: Vec3; readonly halfM: number; readonly f0: Vec3 }
  readonly eye?: Vec3
  /** On a sensor of 36 × 24 mm; else 50. */
  readonly focalLengthMm?: number
  /** Six lit squares about a white bust, in place of all else. */
  readonly furnace?: boolean
}

export function emissionOf(order: EmissionOrder): Emission {
  switch (order.profile) {
    case 'uniform':
      return uniformSurface(order)
    case 'canopy':
      return canopy(order)
    case 'beam':
      return cosineDisc(order)
    case 'kind':
      return buildModifier({ ...defaultModifier(order.kind), ...order.change }).emitters[order.emitter ?? 0]!.emission
    case 'box': {
      const [widthM, heightM, depthM] = order.sizeM
      return lobeTable({
        surface: { shape: 'rectangle', widthM, heightM },
        relative: boxProfile(depthM),
        flux: BARE_DOME_FLUX * boxTransmittance({ widthM, heightM, depthM, backM: 0.15 }),
      })
    }
  }
}

function sourceOf({ emission, centre, aim, axialIntensity = 1 }: SourceOrder, i: number): RigSource {
  const id = `source-${i}`
  const frame = frameTowards(centre, aim)
  return {
    id,
    letter: String.fromCharCode(65 + i),
    role: 'key',
    on: true,
    frame,
    aim,
    axialIntensity,
    colour: [1, 1, 1],
    emitters: [{ id: `${id}.front`, frame, emission: emissionOf(emission), part: 'front' }],
    gear: [],
    litFace: { shape: 'disc', widthM: 0.5, heightM: 0.5 },
  }
}

const grey = (reflectance: number): Material => ({ kind: 'matt', albedo: [reflectance, reflectance, reflectance] })

export function cardOf(id: string, centre: Vec3, towards: Vec3, halfM: number, reflectance: number): Surface {
  const { x, y } = frameTowards(centre, towards)
  const material = grey(reflectance)
  return {
    id,
    kind: 'card',
    rect: {
      centre,
      halfU: [x[0] * halfM, x[1] * halfM, x[2] * halfM],
      halfV: [y[0] * halfM, y[1] * halfM, y[2] * halfM],
    },
    front: material,
    back: material,
  }
}

const mirrorOf = ({ centre, towards, halfM, f0 }: NonNullable<RigOrder['mirror']>): Surface => ({
  ...cardOf('mirror', centre, towards, halfM, 0),
  kind: 'panel',
  front: { kind: 'metal', f0, roughness: 0 },
})

const viewFrom = (eye: Vec3, focalLengthMm: number): View => ({
  frame: frameTowards(eye, [0, 0, 0]),
  focalLengthMm,
  sensorWidthMm: 36,
  sensorHeightMm: 24,
  fNumber: 8,
  iso: 100,
  shutterS: 1 / 125,
})

export function rigOf({
  sources,
  room: walls,
  cards = [],
  mirror,
  eye = [0, 0, 5],
  focalLengthMm = 50,
  furnace,
}: RigOrder): Rig {
  if (furnace) return rigs.furnace()
  return {
    sources: sources.map(sourceOf),
    surfaces: [
      ...(walls ? room(walls.sizeM, () => grey(walls.reflectance)) : []),
      ...cards.map(({ centre, towards, halfM, reflectance }, i) =>
        cardOf(`card-${i}`, centre, towards, halfM, reflectance),
      ),
      ...(mirror ? [mirrorOf(mirror)] : []),
    ],
    balls: [],
    figures: [],
    view: viewFrom(eye, focalLengthMm),
  }
}
