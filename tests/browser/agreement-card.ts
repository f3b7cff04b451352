/** A grey card of 18 % beside the face of any sitting: squared to the first source, in its full view and in the lens's. */
import { projectToFrame } from '../../src/camera'
import { type Sitting, setCamera, type TestObject } from '../../src/sitting'
import { add, addScaled, degrees, dot, frameTowards, normalize, subtract, type Vec3 } from '../../src/space'
import type { Look } from './agreement-pixels'
import { meterScene, rigOfText } from './agreement-routes'

export interface Carded {
  readonly sitting: Sitting
  /** Twenty places spread over it. */
  readonly looks: readonly Look[]
}

const SIDE_M = 0.12
const BESIDE = [0.2, -0.2, 0.27, -0.27, 0.34, -0.34]
const UP = [-0.05, -0.15, 0.05, -0.25]
const FORWARD = [0.12, 0, 0.22]
/** Scenes are framed for the head; a card beside it needs some room, and where the camera looks from changes no light. */
const WIDER = 0.55
/** Of the half frame: so much may be used, and so much of the card must be turned to the lens. */
const IN_FRAME = 0.9
const TURNED = 0.45

export function withCard(tight: Sitting): Carded {
  const sitting = setCamera(tight, { focalLengthMm: WIDER * tight.camera.focalLengthMm })
  const scene = meterScene(rigOfText(JSON.stringify(sitting)))
  const { view, figures, sources } = scene.rig
  const [key] = sources
  const isOpen = (centre: Vec3): boolean => {
    const places = looksOn(centre, key.frame.origin).map(({ at }) => at)
    const normal = normalize(subtract(key.frame.origin, centre))
    return (
      dot(normal, normalize(subtract(view.frame.origin, centre))) > TURNED &&
      places.every((at) => {
        const seen = projectToFrame(at, view.frame, view)
        const off = addScaled(at, normal, 2e-3)
        return (
          seen !== null &&
          Math.max(Math.abs(seen.x), Math.abs(seen.y)) < IN_FRAME &&
          scene.caster.visible(off, view.frame.origin) &&
          scene.caster.visible(off, key.frame.origin, scene.bodies.gearOf.get(key.id))
        )
      })
    )
  }
  const eye = figures[0].posed.eyeMidpoint
  const centres = FORWARD.flatMap((z) => UP.flatMap((y) => BESIDE.map((x): Vec3 => add(eye, [x, y, z]))))
  const centre = centres.find(isOpen)
  if (!centre) throw new Error(`${sitting.title}: no place for a card that source and lens both see`)
  const [x, y, z] = normalize(subtract(key.frame.origin, centre))
  const card: TestObject = {
    id: 'grey-card',
    kind: 'card',
    centreM: centre,
    widthM: SIDE_M,
    heightM: SIDE_M,
    turnDeg: degrees(Math.atan2(x, z)),
    tiltDeg: degrees(Math.asin(y)),
    reflectance: 0.18,
  }
  return {
    sitting: { ...sitting, takes: [], objects: [...sitting.objects, card] },
    looks: looksOn(centre, key.frame.origin),
  }
}

/** Five by four, off the card's edges by more than a pixel. */
function looksOn(centre: Vec3, towards: Vec3): readonly Look[] {
  const { x, y } = frameTowards(centre, towards)
  const at = (u: number, v: number): Vec3 => addScaled(addScaled(centre, x, (u * SIDE_M) / 2), y, (v * SIDE_M) / 2)
  return [-0.5, -0.25, 0, 0.25, 0.5].flatMap((u) =>
    [-0.5, -0.17, 0.17, 0.5].map((v) => ({ name: `card ${u} ${v}`, at: at(u, v) })),
  )
}
