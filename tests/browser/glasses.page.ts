/** In the browser: the light of the key over a close picture of a sitter with glasses. */
import { PictureRenderer } from '../../src/render'
import { glassesRig, PICTURE } from '../render/glasses-rig'

const renderer = new PictureRenderer({
  ...PICTURE,
  canvas: document.createElement('canvas'),
  target: 16,
  tileSize: 256,
  antialias: false,
})

const tested = {
  async light(az: number, el: number, coated: boolean): Promise<number[]> {
    const file = await fetch('/assets/sitter.glb')
    renderer.setRig(glassesRig(new Uint8Array(await file.arrayBuffer()), az, el, coated))
    while (!renderer.step(1000).done);
    const layer = renderer.readLayer('key')
    return Array.from({ length: layer.length / 4 }, (_, i) => layer[4 * i])
  },
}
Object.assign(window, { tested, ready: true })
