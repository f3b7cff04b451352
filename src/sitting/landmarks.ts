import type { LandmarkName } from '../figure'

/** Every landmark that a meter place may name. The record form makes the compiler miss no name and no spare one. */
const KNOWN: Readonly<Record<LandmarkName, true>> = {
  eyeCentreLeft: true,
  eyeCentreRight: true,
  pupilLeft: true,
  pupilRight: true,
  noseTip: true,
  subnasale: true,
  sellion: true,
  glabella: true,
  cheekLeft: true,
  cheekRight: true,
  noseShadowCheekLeft: true,
  noseShadowCheekRight: true,
  foreheadCentre: true,
  chin: true,
  menton: true,
  neckFront: true,
  sternalNotch: true,
  earLeft: true,
  earRight: true,
  crown: true,
  mouthLeft: true,
  mouthRight: true,
  stomion: true,
  shoulderLeft: true,
  shoulderRight: true,
  backOfHead: true,
}

export const LANDMARK_NAMES = Object.keys(KNOWN) as readonly LandmarkName[]

export const isLandmark = (name: string): name is LandmarkName => Object.hasOwn(KNOWN, name)
