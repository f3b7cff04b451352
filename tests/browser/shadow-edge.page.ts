/** In the browser: the light on the card along the picture's height, with the flag over that without it. */
import { PictureRenderer } from '../../src/render'
import { type EdgeSourceName, edgeRig, PICTURE } from '../render/edge-rigs'

/** For a canopy twice a finished picture: its rim is lit by few samples, which at 512 leave ±4 % on the width, at 2048 ±1 %. */
const SAMPLES = { even: 512, canopy: 2048 }

const { width, height } = PICTURE
const rendererTo = (target: number) =>
  new PictureRenderer({ canvas: document.createElement('canvas'), width, height, target })
const renderers = { even: rendererTo(SAMPLES.even), canopy: rendererTo(SAMPLES.canopy) }

function lightOfRows(name: EdgeSourceName, distanceM: number, withFlag: boolean): number[] {
  const renderer = renderers[name.endsWith('umbrella') ? 'canopy' : 'even']
  renderer.setRig(edgeRig(name, distanceM, withFlag).rig)
  while (!renderer.step(1000).done);
  const weights = [{ sourceId: 'key', on: true, factor: 1, rgb: [1, 1, 1] as const }]
  const linear = renderer.readLinear({ weights, exposure: 1, mode: 'plain' })
  return Array.from({ length: height }, (_, y) => {
    let sum = 0
    for (let x = 0; x < width; x++) sum += linear[4 * (y * width + x)]
    return sum / width
  })
}

const tested = {
  profile(name: EdgeSourceName, distanceM: number): number[] {
    const open = lightOfRows(name, distanceM, false)
    return lightOfRows(name, distanceM, true).map((light, row) => light / open[row])
  },
}
Object.assign(window, { tested, ready: true })
