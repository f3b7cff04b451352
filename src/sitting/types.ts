import type { FigureShape, GazeDirection, Glasses, HairCut, Headwear, Lean } from '../figure'
import type { Modifier } from '../gear'
import type { SkinTone } from '../photometry'

type Point = readonly [number, number, number]

/** The document, version 1. SI with unit suffixes; unknown fields survive at every level. Rules by number in SPEC.md. */
export interface Sitting {
  readonly format: 'halfshade.sitting'
  readonly version: 1
  readonly title: string
  readonly note: string
  readonly sitters: readonly Sitter[]
  readonly sources: readonly Source[]
  readonly panels: readonly Panel[]
  readonly objects: readonly TestObject[]
  readonly backdrop: Backdrop | null
  readonly room: Room
  readonly camera: Camera
  /** What gives way when the light changes: all powers together, the f-number, or nothing. */
  readonly reExpose: 'powers' | 'f-number' | 'nothing'
  readonly meterPlaces: readonly MeterPlace[]
  /** Left out: one whose dome and disc agree. */
  readonly meter?: OwnMeter | undefined
  readonly takes: readonly Take[]
}

export interface Sitter {
  readonly id: string
  /** Of the eyes at rest over the floor: the first sitter stands at 0, 0. */
  readonly xM: number
  readonly zM: number
  readonly eyeHeightM: number
  readonly bodyTurnDeg: number
  readonly headTurnDeg: number
  readonly headTiltDeg: number
  readonly chinDeg: number
  readonly skin: SkinTone
  readonly shine: number
  readonly hair: 'dark' | 'brown' | 'fair' | 'grey'
  readonly clothes: 'white' | 'grey' | 'black'
  /** Left out: short. */
  readonly hairCut?: HairCut | undefined
  /** Left out: none. A covering is a cloth over hair, ears and neck. */
  readonly headwear?: Headwear | undefined
  /** Of the headwear; left out: grey. */
  readonly headwearTone?: 'white' | 'grey' | 'black' | undefined
  /** Head and shoulders, lengths in millimetres; left out: the average sitter. */
  readonly shape?: FigureShape | undefined
  /** Where the eyes look: the lens, or a direction from the head; left out: straight ahead with the head. */
  readonly gaze?: SitterGaze | undefined
  /** Of the trunk about the seat; left out: upright. */
  readonly lean?: Lean | undefined
  /** Left out or null: none. */
  readonly glasses?: Glasses | null | undefined
}

export type SitterGaze = 'ahead' | 'camera' | GazeDirection

export interface Calibration {
  /** By so much it gives more than was worked out. */
  readonly stops: number
  readonly date: string
  readonly readFNumber: number
}

export interface Source {
  readonly id: string
  readonly letter: string
  readonly role: 'key' | 'fill' | 'hair' | 'backdrop' | 'kicker'
  readonly on: boolean
  readonly head: Head
  readonly modifier: Modifier
  /** Of the lit face. */
  readonly centreM: Point
  readonly aimM: Point
  readonly rollDeg: number
  /** Of this head with this modifier, from one real reading; left out: as worked out. */
  readonly calibration?: Calibration | undefined
  /** Under it; left out: one that is high and strong enough. */
  readonly stand?: Stand | undefined
  /** Mass of the modifier; left out: not known. */
  readonly modifierKg?: number | undefined
  /** Which entries of a kit stand copied here. */
  readonly kit?: KitUse | undefined
}

export interface Stand {
  readonly name: string
  readonly highestM: number
  /** Of a boom: at its tip. */
  readonly loadKg: number
  /** From the stand to the tip of its boom; left out: no boom. */
  readonly boomM?: number | undefined
}

export interface KitUse {
  readonly headId?: string | undefined
  readonly modifierId?: string | undefined
  readonly standId?: string | undefined
}

/** What burns in a head between flashes. */
export interface ModellingLamp {
  readonly lamp: 'halogen' | 'LED'
  readonly powerW: number
  readonly colourTemperatureK: number
  /** Goes with the flash's dial; false: always at its full brightness. */
  readonly followsDial: boolean
}

export interface Head {
  /** As its owner calls it. */
  readonly name?: string | undefined
  readonly energyJ: number
  /** Guide number in metres at ISO 100 with the 65° standard dish; null: 3.2·√J. */
  readonly guideNumberM: number | null
  /** 0 = full power, −1 = half. */
  readonly powerStops: number
  readonly lowestStops: number
  /** From one setting of the dial to the next, as a rule 0.1 or 1/3; left out: without steps. */
  readonly stepStops?: number | undefined
  readonly colourTemperatureK: number
  /** Shift of a conversion gel, positive: warmer. Left out: none. */
  readonly gelMired?: number | undefined
  /** What a coloured gel lets through of red, green and blue, linear. Left out: all. */
  readonly gelColour?: Point | undefined
  /** Neutral density. Left out: none. */
  readonly ndStops?: number | undefined
  /** How its dial is written: 1/4, a number a stop, or in joules; left out: fractions. */
  readonly dialStyle?: 'fractions' | 'numbers' | 'joules' | undefined
  /** Of a dial in numbers, what it says at full; left out: 10. */
  readonly dialTop?: number | undefined
  readonly massKg?: number | undefined
  /** Flash durations at full power, seconds; left out: not known. */
  readonly t05S?: number | undefined
  readonly t01S?: number | undefined
  /** And at the lowest power; between the two each stop of the dial changes them by the same factor. */
  readonly t05LowestS?: number | undefined
  readonly t01LowestS?: number | undefined
  /** Left out: as is common (rig's USUAL_MODELLING). */
  readonly modelling?: ModellingLamp | undefined
}

/** The mirrors are smooth; silver and gold are crumpled. */
export type PanelCloth = 'white' | 'silver' | 'gold' | 'black' | 'mirror' | 'gold mirror'

export interface Panel {
  readonly id: string
  readonly kind: PanelCloth
  /** Of the back; left out: as the front. */
  readonly back?: PanelCloth | undefined
  readonly widthM: number
  readonly heightM: number
  readonly centreM: Point
  /** Azimuth of the front's normal, from +z to +x; and its tilt upwards. */
  readonly turnDeg: number
  readonly tiltDeg: number
  /** By so much two halves are folded towards the front, about the upright line through the middle; left out: 0. */
  readonly foldDeg?: number | undefined
}

export type TestObject =
  | {
      readonly id: string
      readonly kind: 'ball'
      readonly centreM: Point
      readonly diameterM: number
      readonly reflectance: number
    }
  | {
      readonly id: string
      readonly kind: 'card'
      readonly centreM: Point
      readonly widthM: number
      readonly heightM: number
      readonly turnDeg: number
      readonly tiltDeg: number
      readonly reflectance: number
    }
  /** A straight opaque edge held before a card: the flag covers the card's upper half, gapM in front of it. */
  | {
      readonly id: string
      readonly kind: 'flag-before-card'
      readonly centreM: Point
      readonly widthM: number
      readonly heightM: number
      readonly turnDeg: number
      readonly tiltDeg: number
      readonly gapM: number
      readonly reflectance: number
    }

export interface Backdrop {
  readonly widthM: number
  readonly heightM: number
  /** Its plane stands at z = −distanceM behind the first sitter's eyes at rest, facing +z; lower edge at the floor. */
  readonly distanceM: number
  /** Linear reflectance per band. */
  readonly reflectance: Point
}

export interface Room {
  readonly widthM: number
  readonly depthM: number
  readonly heightM: number
  /** Of the floor's middle. */
  readonly xM: number
  readonly zM: number
  readonly wallReflectance: number
  readonly ceilingReflectance: number
  readonly floorReflectance: number
  /** No walls and no ceiling: the floor is a piece of ground. Left out: a room. */
  readonly outdoors?: boolean | undefined
}

export interface Camera {
  readonly positionM: Point
  readonly aimM: Point
  readonly focalLengthMm: number
  readonly sensorWidthMm: number
  readonly sensorHeightMm: number
  readonly fNumber: number
  readonly iso: number
  readonly shutterS: number
  /** Shortest exposure at which the whole frame is open to a flash; left out: 1/200 s. */
  readonly syncS?: number | undefined
  /** Left out or null: none. */
  readonly hood?: Hood | null | undefined
  /** White balance; left out: 5500 K. */
  readonly balanceK?: number | undefined
  /** Speed of what moves in the frame, m/s; left out: 1. */
  readonly moverMps?: number | undefined
}

/** A black tube before the front glass of the lens, which is as wide. */
export interface Hood {
  readonly depthM: number
  readonly diameterM: number
}

/**
 * Flash alone, what burns on alone, modelling lamps alone; all that shines without flash, modelling lamps too; and all of it at once.
 */
export type MeterCounts = 'flash' | 'steady' | 'modelling' | 'no flash' | 'all'

export interface MeterPlace {
  readonly id: string
  readonly name: string
  readonly at: MeterHold
  readonly receptor: MeterReceptor
  readonly facing: MeterFacing
  /** Whose light counts, an empty list being nobody's; left out: all that is on. */
  readonly sourceIds?: readonly string[] | undefined
  /** Left out: flash and what burns on. */
  readonly counts?: MeterCounts | undefined
  /** Places with the same word are read together, with their spread; left out: alone. */
  readonly grid?: string | undefined
}

/** A landmark of a sitter, a place on the backdrop (shares of half its width and height from its middle), or a free point. */
export type MeterHold =
  | { readonly sitterId: string; readonly landmark: string }
  | { readonly acrossShare: number; readonly upShare: number }
  | { readonly pointM: Point }

/** A shaded dome has the half-room behind it kept off by a hand; a spot is read through the lens. */
export type MeterReceptor = 'dome' | 'shaded dome' | 'disc' | 'spot'

/** At the key, at the lens, square off what it is held on, at a source, or at a point. A spot is read from the lens whatever it says. */
export type MeterFacing = 'light' | 'lens' | 'square' | { readonly sourceId: string } | { readonly aimM: Point }

/** The user's own meter. */
export interface OwnMeter {
  /** Incident constant of its dome, lx·s; left out: 250. */
  readonly domeC?: number | undefined
}

export interface Take {
  readonly name: string
  /** A whole sitting without takes of its own. */
  readonly sitting: Omit<Sitting, 'takes'>
}
