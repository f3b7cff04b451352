import { withEar } from './ear'
import { withEye } from './eye'
import { withJaw } from './jaw'
import { withMouth } from './mouth'
import { withNose } from './nose'
import { type Field, smoothMax, smoothMin, smoothStep } from './solids'
import { torso } from './torso'

/** Where the skin ends under the cloth: below this height and outside this radius about the body axis, mm. */
const CUT_Y = -218
const CUT_RADIUS = 118
const CUT_OPENS_Y = -185

function head(base: Field, x: number, y: number, z: number): number {
  let f = base(x, y, z)
  // Early answers keep the sign and never jump across 0, or they make phantom shells.
  if (f > 60) return f - 20
  if (Math.abs(f) < 25) f = withEye(withMouth(withNose(withJaw(f, x, y, z), x, y, z), x, y, z), x, y, z)
  return y < 40 && y > -70 && z < -35 && z > -140 ? withEar(f, x, y, z) : f
}

/** The whole bust as one solid: head and torso, uncut. Landmarks under the cloth are taken from it. */
export function bustField(base: Field): Field {
  return (signedX, y, z) => {
    const x = Math.abs(signedX)
    const f = y > -240 ? head(base, x, y, z) : 1e3
    if (y >= 10) return f
    // A crisp jaw edge at the sides, soft under the chin and at the nape.
    const fillet = 8 + 14 * Math.exp((-x * x) / 600) + 20 * smoothStep(-40, -110, z)
    return smoothMin(f, torso(x, y, z), fillet)
  }
}

/** The bust cut off under the cloth. */
export function skinField(base: Field): Field {
  const bust = bustField(base)
  return (x, y, z) => {
    // Widening upwards, or the cylinder would shave a millimetre off the nose.
    const radius = CUT_RADIUS + 2 * Math.max(0, y - CUT_OPENS_Y)
    return smoothMax(smoothMax(bust(x, y, z), CUT_Y - y, 4), Math.hypot(x, (z + 90) * 0.9) - radius, 4)
  }
}
