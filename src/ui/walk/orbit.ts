import { degrees, distance, radians, subtract, type Vec3 } from '../../space'

/** Id of the word that opens the walk round: the focus goes back there. */
export const WALK_WORD = 'walk-word'

/** Where somebody stands who walks round the set: degrees round from the camera's side to camera right, degrees up, metres away. */
export interface Orbit {
  readonly roundDeg: number
  readonly upDeg: number
  readonly awayM: number
}

/** Over the lens's shoulder: lamps and panels beside the sitter seldom stand before them from there. */
export const START: Orbit = { roundDeg: 12, upDeg: 32, awayM: 4.5 }
/** How far up and how far off one may stand. */
export const UP_DEG = [-5, 89] as const
export const AWAY_M = [0.8, 25] as const

const within = (value: number, [low, high]: readonly [number, number]): number => Math.min(high, Math.max(low, value))

export const turned = ({ roundDeg, upDeg, awayM }: Orbit, round: number, up: number): Orbit => ({
  roundDeg: ((((roundDeg + round + 180) % 360) + 360) % 360) - 180,
  upDeg: within(upDeg + up, UP_DEG),
  awayM,
})

export const nearer = (orbit: Orbit, times: number): Orbit => ({ ...orbit, awayM: within(orbit.awayM / times, AWAY_M) })

/** What a key asks for; null: nothing. 5° or a tenth nearer a press. */
export function keyed(orbit: Orbit, key: string): Orbit | null {
  switch (key) {
    case 'ArrowLeft':
      return turned(orbit, -5, 0)
    case 'ArrowRight':
      return turned(orbit, 5, 0)
    case 'ArrowUp':
      return turned(orbit, 0, 5)
    case 'ArrowDown':
      return turned(orbit, 0, -5)
    case '+':
    case '=':
      return nearer(orbit, 1.1)
    case '-':
      return nearer(orbit, 1 / 1.1)
    default:
      return null
  }
}

/** The eye of who looks at a point from there. World. */
export function eyeAt({ roundDeg, upDeg, awayM }: Orbit, at: Vec3): Vec3 {
  const [round, up] = [radians(roundDeg), radians(upDeg)]
  const level = awayM * Math.cos(up)
  return [at[0] + level * Math.sin(round), at[1] + awayM * Math.sin(up), at[2] + level * Math.cos(round)]
}

/** Where an eye stands that looks at a point. World. */
export function orbitOf(eye: Vec3, at: Vec3): Orbit {
  const [x, y, z] = subtract(eye, at)
  const awayM = distance(eye, at)
  return { roundDeg: degrees(Math.atan2(x, z)), upDeg: degrees(Math.asin(y / awayM)), awayM }
}
