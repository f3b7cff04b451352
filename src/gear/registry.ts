import { bareBulb } from './bare-bulb'
import { batteryFlash } from './battery-flash'
import { beautyDish } from './beauty-dish'
import { deepUmbrella } from './deep-umbrella'
import { dish, wideDish } from './dish'
import { completed, fieldProblem } from './fields'
import { ledPanel } from './led-panel'
import { longDish } from './long-dish'
import { measuredLamp } from './measured-lamp'
import { modellingLamp } from './modelling-lamp'
import { octaBox } from './octa'
import { onCameraFlash } from './on-camera-flash'
import { overcastSky } from './overcast-sky'
import { ringFlash } from './ring-flash'
import { scrim } from './scrim'
import { shootThrough } from './shoot-through-umbrella'
import { silverUmbrella } from './silver-umbrella'
import { snoot } from './snoot'
import { softBox } from './softbox'
import { stripBox } from './strip'
import { sun } from './sun'
import type { BuiltModifier, Modifier, ModifierKind, Problem } from './types'
import { whiteUmbrella } from './white-umbrella'
import { windowLight } from './window'

/** One line a kind, the most used of the studio first: common practice, no source. */
export const MODIFIER_KINDS: readonly ModifierKind[] = [
  softBox,
  octaBox,
  stripBox,
  whiteUmbrella,
  silverUmbrella,
  shootThrough,
  deepUmbrella,
  beautyDish,
  dish,
  wideDish,
  longDish,
  snoot,
  bareBulb,
  scrim,
  onCameraFlash,
  batteryFlash,
  ringFlash,
  ledPanel,
  modellingLamp,
  windowLight,
  measuredLamp,
  sun,
  overcastSky,
]

const ids = () => MODIFIER_KINDS.map(({ id }) => id).join(', ')
const find = (id: string) => MODIFIER_KINDS.find((kind) => kind.id === id)

/** The kind of that id. Throws with the known ones if there is none: validateModifier says the same without throwing. */
export function modifierKind(id: string): ModifierKind {
  const kind = find(id)
  if (!kind) throw new Error(`gear.modifierKind: no modifier of kind "${id}"; there are ${ids()}`)
  return kind
}

export function buildModifier(modifier: Modifier): BuiltModifier {
  const kind = modifierKind(modifier.kind)
  return kind.build(completed(modifier, kind.fields))
}

const words = new WeakMap<Modifier, Pick<BuiltModifier, 'name' | 'lining'>>()

/** Kept, as a page asks at each move of a hand. */
function wordsOf(modifier: Modifier): Pick<BuiltModifier, 'name' | 'lining'> {
  const known = words.get(modifier) ?? buildModifier(modifier)
  const { name, lining } = known
  words.set(modifier, { name, ...(lining !== undefined && { lining }) })
  return known
}

/** 'white umbrella 0.95 m': its kind and open size. */
export const modifierName = (modifier: Modifier): string => wordsOf(modifier).name

/** 'silver inside'; null: its name tells what it is lined with, or it is not. */
export const liningWords = (modifier: Modifier): string | null => wordsOf(modifier).lining ?? null

/** A new modifier of that kind with the defaults of its table. */
export function defaultModifier(id: string): Modifier {
  const { fields } = modifierKind(id)
  return { kind: id, ...Object.fromEntries(fields.map((field) => [field.id, field.default])) }
}

/** All that is wrong, in words for the photographer; empty: nothing. Fields that the table doesn't know are let through. */
export function validateModifier(modifier: Modifier, path: string): readonly Problem[] {
  const kind = find(modifier.kind)
  if (!kind)
    return [
      {
        path: `${path}.kind`,
        expected: `one of ${ids()}`,
        got: JSON.stringify(modifier.kind) ?? 'nothing',
        advice: 'Take the kind that is nearest, then set its size.',
      },
    ]
  const problems = kind.fields.flatMap((field) => fieldProblem(field, modifier[field.id], `${path}.${field.id}`) ?? [])
  return problems.length > 0 ? problems : (kind.check?.(completed(modifier, kind.fields), path) ?? [])
}
