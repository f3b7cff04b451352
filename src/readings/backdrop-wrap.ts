import type { Probe } from '../meter'
import { irradianceFromPolygon, luminanceFromSrgb, stopsBetween } from '../photometry'
import { addScaled, cross, dot, normalize, type Rect, scale, subtract, type Vec3 } from '../space'
import { BANDS } from './bands'
import { absent, reading } from './reading'
import { farCheekOf, type Stage } from './stage'
import type { Reading } from './types'
import { signed } from './words'

/** Parts of the paper along each side, each with the light in its middle. */
const PARTS = 3
/** Under the key by more, no rim is seen; over this it eats the cheek's outline. Common practice, no source. */
const [FAINT, STRONG] = [-3, -1]

/** What a lit backdrop (mean: of its seen places, lx·s) sends to the rim of the cheek: a disc there, square to the paper, against the near cheek's own reading. */
export function wrapReading(stage: Stage, mean: number, face: number): Reading {
  const { scene, figure, key, sitting } = stage
  const { rect } = scene.rig.surfaces.find(({ kind }) => kind === 'backdrop')!
  const cheek = figure.posed.landmarks[key ? farCheekOf(stage, key) : 'cheekLeft']
  const place = { name: 'rim of the cheek', at: cheek.position }
  const formula = 'log₂(Σ ρ·H paper·F / H near cheek), F of each ninth of the paper'
  const reflectance = luminanceFromSrgb(sitting.backdrop!.reflectance)
  const even = mean * wrapFactor(rect, cheek.position)
  const isFaint = stopsBetween(face, reflectance * even) < FAINT - 1
  // By the seen places alone where no rim can show: the whole paper's light is work.
  const light = isFaint
    ? even
    : partsOf(rect, PARTS).reduce(
        (sum, part) => sum + lightOn(stage, part, cheek.position) * wrapFactor(part, cheek.position),
        0,
      )
  const wrap = reflectance * light
  const source = 'Lambert’s polygon; light straight from the sources on the paper, the head itself left out'
  if (!(wrap > 0))
    return absent({
      id: 'backdrop.wrap',
      place,
      formula,
      source,
      sentence: 'the backdrop sends nothing to the rim of the cheek.',
    })
  const stops = stopsBetween(face, wrap)
  const says =
    stops < FAINT
      ? 'no rim that shows'
      : stops < STRONG
        ? 'a soft rim along cheek and hair'
        : 'the outline washes out: come forward, or light less of the paper'
  return reading({
    id: 'backdrop.wrap',
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.backdrop,
    place,
    sentence: `is what the backdrop wraps round the rim of the cheek, against the near cheek: ${says}.`,
    why: { formula, filled: `${signed(stops, 2)} ${isFaint ? 'by the seen places' : 'over all nine parts'}`, source },
  })
}

/** Direct light on a part's middle, on the side of the sitter. */
function lightOn(stage: Stage, part: Rect, from: Vec3): number {
  const normal = facing(part, from)
  const probe: Probe = { point: addScaled(part.centre, normal, 1e-3), normal }
  return stage.scene.rig.sources
    .filter(({ on }) => on)
    .reduce((sum, source) => sum + stage.table.oneOfMany(source, probe, 'disc'), 0)
}

function facing({ centre, halfU, halfV }: Rect, place: Vec3): Vec3 {
  const normal = normalize(cross(halfU, halfV))
  return dot(normal, subtract(place, centre)) < 0 ? scale(normal, -1) : normal
}

/** Share of a matt rectangle's radiant exitance that arrives at a place on a disc square to it and facing it: E/(L·π). */
export function wrapFactor(rect: Rect, place: Vec3): number {
  const corner = (u: number, v: number): Vec3 =>
    subtract(addScaled(addScaled(rect.centre, rect.halfU, u), rect.halfV, v), place)
  const corners = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]
  return irradianceFromPolygon(corners, scale(facing(rect, place), -1)) / Math.PI
}

function partsOf({ centre, halfU, halfV }: Rect, count: number): readonly Rect[] {
  const at = (i: number) => (2 * i + 1) / count - 1
  return Array.from({ length: count * count }, (_, i) => ({
    centre: addScaled(addScaled(centre, halfU, at(i % count)), halfV, at(Math.floor(i / count))),
    halfU: scale(halfU, 1 / count),
    halfV: scale(halfV, 1 / count),
  }))
}
