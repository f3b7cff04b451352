import type { PartName, PosedFigure, StrandKind, StrandsAtRest } from '../figure'
import type { GearSolid } from '../gear'
import type { CandelaSeconds, Emission, Rgb } from '../photometry'
import type { Frame, Rect, Vec3 } from '../space'

/** The narrow waist: what shines, what stands in the way, who looks. World metres. Built by assembleRig(sitting, asset). */
export interface Rig {
  readonly sources: readonly RigSource[]
  readonly surfaces: readonly Surface[]
  readonly balls: readonly Ball[]
  readonly figures: readonly RigFigure[]
  readonly view: View
}

export interface RigSource {
  readonly id: string
  readonly letter: string
  readonly role: string
  readonly on: boolean
  /** It shines all along the exposure; left out: a flash. */
  readonly burnsOn?: true | undefined
  /** Of the lit face: origin its centre, z to the aim point, y as nearly up as can be. */
  readonly frame: Frame
  readonly aim: Vec3
  /** Of the head in its 65° dish, at its set power. */
  readonly axialIntensity: CandelaSeconds
  readonly colour: Rgb
  /** Of what burns in a flash head between flashes; left out: nothing does. */
  readonly modelling?: RigModelling | undefined
  /** Frames differ from the source's own where light leaves backwards or past the canopy. */
  readonly emitters: readonly Emitter[]
  /** Everything opaque that the source brings: blocks other sources' light and shows in the picture. */
  readonly gear: readonly GearSolid[]
  readonly litFace: { readonly shape: 'disc' | 'rectangle'; readonly widthM: number; readonly heightM: number }
  /** No thing of the set, such as the sun: where the document and the drawings have its mark. Left out: it stands there. */
  readonly remote?: { readonly kind: 'far' | 'around'; readonly markM: Vec3 } | undefined
}

export interface RigModelling {
  /** In the 65° dish, at the power that the document has. */
  readonly candela: number
  readonly colour: Rgb
  /** Where re-exposure turns the dial, it goes along. */
  readonly followsDial: boolean
}

export interface Emitter {
  readonly id: string
  readonly frame: Frame
  readonly emission: Emission
  /** front: what reaches the sitter by design; back: through or off the rear of a cloth; spill: past the canopy. */
  readonly part: 'front' | 'back' | 'spill'
  /** The side of the source's gear on which it lies; left out: it shows nothing of other light. */
  readonly cloth?: { readonly solid: number; readonly side: 'front' | 'back' }
}

export type Material =
  | { readonly kind: 'matt'; readonly albedo: Rgb }
  /** GGX metal: F0 per band, roughness r with α = r². Roughness 0: a mirror. */
  | { readonly kind: 'metal'; readonly f0: Rgb; readonly roughness: number }

export interface Surface {
  readonly id: string
  /** Id of the thing of the document that it is a part of; left out: its own. */
  readonly of?: string
  readonly kind: 'panel' | 'backdrop' | 'wall' | 'floor' | 'ceiling' | 'card' | 'flag'
  readonly rect: Rect
  readonly front: Material
  /** null: one-sided, seen and lit from the front only (room surfaces, whose fronts face inwards). */
  readonly back: Material | null
}

export interface Ball {
  readonly id: string
  readonly centre: Vec3
  readonly radiusM: number
  readonly material: Material
}

export interface RigFigure {
  readonly id: string
  readonly posed: PosedFigure
  /** Base reflectance of each part; a vertex's albedo is base × tint. */
  readonly albedo: Readonly<Record<PartName, Rgb>>
  /** Dielectric lobe of skin and eyes. */
  readonly skinF0: number
  readonly skinRoughness: number
  /** Of the frame of glasses; negative: a metal's. Left out: matt. */
  readonly frameRoughness?: number | undefined
  /** Seen only; left out: none. */
  readonly strands?: RigStrands | undefined
  readonly strandCoats?: Readonly<Record<StrandKind, StrandCoat>> | undefined
}

export interface RigStrands {
  /** Lashes and wet edges, as all here in the head's frame. */
  readonly withLids: StrandsAtRest
  /** Brows and the hairs of the hairline: the same in every pose. */
  readonly withHead: StrandsAtRest
  /** Wisps, by the hair's vertices. */
  readonly onHair: StrandsAtRest
}

export interface StrandCoat {
  readonly albedo: Rgb
  /** Of a dielectric lobe, a hair's along it; 0: matt. */
  readonly roughness: number
  /**
   * Of a line along the skin that is thinner than a pixel: what is left of the skin's light beside it. Left out: a hair, which
   * hides what is behind it and leaves the rest as it is.
   */
  readonly between?: number
  /** Of a hair that lies on what is under it: thinner than a pixel it is mixed with that rather than shown now and then. */
  readonly laidIn?: 'brow' | 'hairline'
  /** Of the albedo at its root, to all of it at the tip; left out: 1. */
  readonly rootShade?: number
  /** Of the albedo, single ones between these; left out: all alike. */
  readonly tones?: readonly [number, number]
}

export interface View {
  readonly frame: Frame
  /** z of the frame looks from the camera into the scene. */
  readonly focalLengthMm: number
  readonly sensorWidthMm: number
  readonly sensorHeightMm: number
  readonly fNumber: number
  readonly iso: number
  readonly shutterS: number
  /** Directions d with d·v > 0 get no flash, as the shutter is too short for it (camera's darkSide); left out: all get it. */
  readonly darkSide?: Vec3 | undefined
  /** A black tube on the lens, m; left out: none. */
  readonly hood?: { readonly depthM: number; readonly diameterM: number }
}
