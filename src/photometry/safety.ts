import { solidAngleOfCone } from './solidAngle'
import type { Metres, Seconds, Steradians } from './units'

/** What a set and its picture on a screen can do to people. Limits are others'; the set-up sheet repeats them as such. */

/** No more than three flashes in any second on a page [WCAG22] 2.3.1; a flash train on screen keeps this spacing. */
export const FLASHES_PER_SECOND = 3
export const flashSpacing = (flashesPerSecond = FLASHES_PER_SECOND): Seconds => 1 / flashesPerSecond

/** A general flash: opposing changes of relative luminance by 0.1 or more, the darker below 0.80 [WCAG22]. */
export const FLASH_CHANGE = 0.1
export const FLASH_DARKER_BELOW = 0.8

/** Smallest flashing area that counts: a quarter of any 10° of the field [WCAG22]; the text rounds it to 0.006 sr. */
export const flashAreaLimit = (fieldDeg = 10, share = 0.25): Steradians =>
  share * solidAngleOfCone((fieldDeg / 2) * (Math.PI / 180))

/** Most that a lamp's power P in watts can heat a place: all of it radiated, evenly all round. W/m². */
export const irradianceFromPower = (power: number, distance: Metres): number => power / (4 * Math.PI * distance ** 2)

/**
 * Horizontal push in newtons at height h that starts to tip a stand of weight W: moments about the tipping edge,
 * b the shortest distance from the weight's line to it. Local rules and the maker's loads come first.
 */
export const tippingPush = (weight: number, toEdge: Metres, height: Metres): number => (weight * toEdge) / height

/** Counterweight in kg on the short arm of a boom. */
export const counterweight = (load: number, loadArm: Metres, counterArm: Metres): number =>
  (load * loadArm) / counterArm
