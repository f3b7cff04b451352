/** One sitter in three lights, seen from four sides, in four skins: what goldens.test.ts keeps. */
import { defaultModifier } from '../../src/gear'
import { firstSitting, type Sitter, type Sitting, type Source } from '../../src/sitting'

export const SKINS = ['very light', 'intermediate', 'brown', 'dark'] as const
export type Skin = (typeof SKINS)[number]
export const VIEWS = ['front', 'three-quarter', 'profile', 'above'] as const
export type ViewName = (typeof VIEWS)[number]

const HAIR = { 'very light': 'fair', intermediate: 'brown', brown: 'dark', dark: 'dark' } as const

const EYES: readonly [number, number, number] = [0, 1.2, 0]

/** Degrees round from +z to +x and up, metres from the midpoint of the eyes. */
function place(aroundDeg: number, upDeg: number, metres: number): [number, number, number] {
  const [a, e] = [(aroundDeg * Math.PI) / 180, (upDeg * Math.PI) / 180]
  return [
    EYES[0] + metres * Math.sin(a) * Math.cos(e),
    EYES[1] + metres * Math.sin(e),
    EYES[2] + metres * Math.cos(a) * Math.cos(e),
  ]
}

/** Powers bring the near cheek to about f/8 at ISO 100, as the set's camera has it. */
const LIGHTS = [
  { id: 'loop, white umbrella', kind: 'white-umbrella', at: place(38, 36, 1.4), powerStops: -2 },
  { id: 'Rembrandt, dish', kind: 'dish', at: place(-52, 42, 1.6), powerStops: -3.4 },
  { id: 'butterfly, softbox', kind: 'softbox', at: place(-4, 46, 1.3), powerStops: -2.5 },
] as const
export const LIGHT_NAMES = LIGHTS.map(({ id }) => id)

const FROM: Readonly<Record<ViewName, [number, number, number]>> = {
  front: place(0, 0, 1.8),
  'three-quarter': place(-40, 0, 1.8),
  profile: place(90, 0, 1.8),
  above: place(-20, 35, 1.1),
}

/** All three lights at once, each in a layer of its own: they are weighed one by one. */
export function goldenSitting(view: ViewName, skin: Skin): Sitting {
  const first = firstSitting()
  const [sitter] = first.sitters as [Sitter]
  const [key] = first.sources as [Source]
  return {
    ...first,
    sitters: [{ ...sitter, eyeHeightM: EYES[1], headTurnDeg: 0, skin, shine: 0.4, hair: HAIR[skin], clothes: 'grey' }],
    sources: LIGHTS.map(({ id, kind, at, powerStops }, i) => ({
      ...key,
      id,
      letter: 'ABC'[i]!,
      head: { ...key.head, powerStops },
      modifier: defaultModifier(kind),
      centreM: at,
      aimM: [0, EYES[1] - 0.03, 0.03],
    })),
    camera: {
      ...first.camera,
      positionM: FROM[view],
      aimM: [0, EYES[1] - 0.05, -0.02],
      focalLengthMm: view === 'above' ? 65 : 105,
    },
    panels: [],
    reExpose: 'nothing',
  }
}
