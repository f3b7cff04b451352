import { defaultModifier } from '../../src/gear'
import { firstSitting, type Sitting } from '../../src/sitting'
import { lamp, setOf } from './set'

const { diameterM, depthM, shaftM } = defaultModifier('white-umbrella')
const first = firstSitting()

/** One canopy, one place of the lamp, in silver or in matt white, in a pale room of 3.5 × 3 × 2.4 m. */
export function underUmbrella(kind: 'silver-umbrella' | 'white-umbrella'): Sitting {
  const cloth = kind === 'white-umbrella' ? { cloth: 'matt' } : {}
  const modifier = { ...defaultModifier(kind), diameterM, depthM, shaftM, ...cloth }
  return setOf([lamp('A', { az: 45, el: 30, d: 1.5, modifier })], {
    room: {
      ...first.room,
      ...{ widthM: 3.5, depthM: 3, heightM: 2.4, zM: 0.3 },
      ...{ wallReflectance: 0.7, ceilingReflectance: 0.8, floorReflectance: 0.4 },
    },
  })
}
