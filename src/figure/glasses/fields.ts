/** What the document says of a sitter's glasses. One table gives unit, range, usual range, default and meaning of its numbers. */
export const FRAME_KINDS = ['dark', 'brown', 'metal'] as const
/** dark and brown: thick plastic rims; metal: thin wire with pads on arms. */
export type FrameKind = (typeof FRAME_KINDS)[number]

export interface Glasses {
  /** Of the frame's front from the upright, lower edge towards the cheeks: pantoscopic tilt. */
  readonly tiltDeg: number
  /** Power of the lenses' front surface, dioptres at the tool index: r = 0.53 m / curve; 0 is flat. */
  readonly frontCurveD: number
  /** Against reflections. */
  readonly coated: boolean
  readonly frame: FrameKind
}

export interface GlassesField {
  readonly label: string
  readonly unit: '°' | 'D'
  readonly range: readonly [number, number]
  readonly usual: readonly [number, number]
  readonly default: number
  readonly step: number
  readonly meaning: string
}

/** Usual values: common practice in fitting, no source. Beyond 12° the temples are lifted off the ears, as one does for a picture. */
export const GLASSES_FIELDS = {
  tiltDeg: {
    label: 'Frame tilt',
    unit: '°',
    range: [-5, 25],
    usual: [0, 20],
    default: 8,
    step: 0.5,
    meaning: 'Of the frame from the upright, lower edge towards the cheeks; usually 5 to 12',
  },
  frontCurveD: {
    label: 'Lens curve',
    unit: 'D',
    range: [0, 9],
    usual: [0, 8],
    default: 4,
    step: 0.25,
    meaning: "Of the lenses' front in dioptres at index 1.53 (radius 0.53 m over it): 0 flat, 4 common, 8 wrapped",
  },
} as const satisfies Record<string, GlassesField>

export type GlassesFieldName = keyof typeof GLASSES_FIELDS

export const DEFAULT_GLASSES: Glasses = {
  tiltDeg: GLASSES_FIELDS.tiltDeg.default,
  frontCurveD: GLASSES_FIELDS.frontCurveD.default,
  coated: false,
  frame: 'dark',
}

/** Index for which the trade names a front curve, whatever the lens is made of: tools are marked so. From memory. */
const TOOL_INDEX = 1.53

/** 1/m; 0: flat. */
export const frontCurvature = ({ frontCurveD }: Pick<Glasses, 'frontCurveD'>): number => frontCurveD / (TOOL_INDEX - 1)
