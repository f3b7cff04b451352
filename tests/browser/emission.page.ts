/** In the browser: the comparisons of shared/emission-values.json with light as the picture's own passes bring it to places. */
import type { Emission } from '../../src/photometry'
import { PictureRenderer } from '../../src/render'
import type { Vec3 } from '../../src/space'
import { rigOf } from '../meter/fixtures'
import { BOX_CHECKS } from '../photometry/profiles/boxes'
import { CANOPY_CHECKS } from '../photometry/profiles/canopies'
import { type Comparison, RECORDS } from '../photometry/profiles/check'
import { FLAT_CHECKS } from '../photometry/profiles/flat'
import { BY_AREA, measuresBy } from '../photometry/profiles/measure'
import { sourceOf } from '../rig/alone'

const CHECKS = [...CANOPY_CHECKS, ...BOX_CHECKS, ...FLAT_CHECKS]

let renderer: PictureRenderer | null = null
let samples = 64

/** 1/m². */
function irradiance(emission: Emission, position: Vec3, normal: Vec3): number {
  renderer ??= new PictureRenderer({ canvas: document.createElement('canvas'), width: 16, height: 16 })
  renderer.setRig(rigOf([sourceOf(emission)]))
  const [reading] = renderer.renderProbes([{ position, normal }], samples)
  return reading!.irradiance[1]!
}

/** What is asked piece by piece of a face is no matter of places: only `irradiance` is the picture's. */
const BY_PICTURE = measuresBy({ ...BY_AREA, irradiance })

const tested = {
  compared(id: string, points: number): readonly Comparison[] {
    samples = points
    const record = RECORDS.find((one) => one.id === id)!
    return CHECKS.find(([pattern]) => pattern.test(id))![1](record, BY_PICTURE)
  },
}

Object.assign(window, { tested, ready: true })
