import { lidStrands, PLAIN_WEAR, type PosedFigure, restStrands, type StrandBinding, type Wear } from '../figure'
import { SKIN_F0 } from '../photometry'
import { type Camera, type PlaceLandmarks, poseOf, type Sitter } from '../sitting'
import { distance, type Vec3 } from '../space'
import { glassesKey } from './glasses'
import { shapeKey } from './shape'
import { frameRoughness, sitterAlbedo, skinRoughness, strandCoats } from './skin'
import type { RigFigure, RigStrands } from './types'

/** What a sitter wears on the head. */
export const wearOf = ({
  hairCut = PLAIN_WEAR.hairCut,
  headwear = PLAIN_WEAR.headwear,
}: Pick<Sitter, 'hairCut' | 'headwear'>): Wear => ({ hairCut, headwear })

/** What the posed figure is made from, shape and wear included: while these stay the same, so does it. Always as many fields. */
export function poseFields(sitter: Sitter, camera: Camera): readonly unknown[] {
  const { positionM, gaze, lean, ...angles } = poseOf(sitter, camera)
  const looked = !gaze ? [null, null, null] : 'atM' in gaze ? gaze.atM : [gaze.acrossDeg, gaze.upDeg, null]
  return [
    ...positionM,
    ...Object.values(angles),
    ...looked,
    lean?.forwardM,
    lean?.asideM,
    shapeKey(sitter.shape),
    ...Object.values(wearOf(sitter)),
    glassesKey(sitter.glasses),
  ]
}

/** grow: the strands, which only the picture asks for. */
export function rigFigure(sitter: Sitter, posed: PosedFigure, grow: () => GrownStrands): RigFigure {
  return {
    id: sitter.id,
    posed,
    albedo: sitterAlbedo(sitter),
    skinF0: SKIN_F0,
    skinRoughness: skinRoughness(sitter.shine),
    frameRoughness: frameRoughness(sitter),
    strands: strandsOf(posed, grow),
    strandCoats: strandCoats(sitter),
  }
}

export type GrownStrands = Readonly<Record<keyof RigStrands, StrandBinding>>

function strandsOf(posed: PosedFigure, grow: () => GrownStrands): RigStrands {
  let withLids: RigStrands['withLids'] | null = null
  let withHead: RigStrands['withHead'] | null = null
  let onHair: RigStrands['onHair'] | null = null
  return {
    get withLids() {
      withLids ??= lidStrands(grow().withLids, posed)
      return withLids
    },
    get withHead() {
      withHead ??= restStrands(grow().withHead, posed)
      return withHead
    },
    get onHair() {
      onHair ??= restStrands(grow().onHair, posed, 'hair')
      return onHair
    },
  }
}

/** What places of sources are measured from. */
export function placeLandmarks({ posed }: Pick<RigFigure, 'posed'>): PlaceLandmarks {
  const { cheekLeft, cheekRight, crown, chin, noseTip } = posed.landmarks
  return {
    eyePoint: posed.eyeMidpoint,
    cheekLeft: cheekLeft.position,
    cheekRight: cheekRight.position,
    crown: crown.position,
    chin: chin.position,
    noseTip: noseTip.position,
  }
}

export type Cheek = 'cheekLeft' | 'cheekRight'

/** The cheek on the side of a point (as a rule the key's centre): the nearer one. */
export function nearCheek({ posed }: Pick<RigFigure, 'posed'>, towards: Vec3): Cheek {
  const { cheekLeft, cheekRight } = posed.landmarks
  return distance(towards, cheekLeft.position) <= distance(towards, cheekRight.position) ? 'cheekLeft' : 'cheekRight'
}

export const farCheek = (figure: Pick<RigFigure, 'posed'>, towards: Vec3): Cheek =>
  nearCheek(figure, towards) === 'cheekLeft' ? 'cheekRight' : 'cheekLeft'
