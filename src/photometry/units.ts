/** Names for bare numbers in signatures. Flash is counted over the burst, so luminous exposure and its kin carry seconds. */
export type Metres = number
export type Radians = number
export type Degrees = number
/** K */
export type Kelvin = number
export type Steradians = number
export type Stops = number
export type Seconds = number
export type Joules = number
/** lx */
export type Lux = number
/** lx·s: illuminance over the burst */
export type LuxSeconds = number
/** cd */
export type Candela = number
/** cd·s: intensity over the burst */
export type CandelaSeconds = number
/** cd/m² */
export type Nits = number
/** cd·s/m²: luminance over the burst */
export type NitSeconds = number
/** lm·s */
export type LumenSeconds = number
/** Linear sRGB primaries, D65 white. For a light's colour the luminance of the triple is 1. For a surface: reflectance. */
export type Rgb = readonly [number, number, number]
