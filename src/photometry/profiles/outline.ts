import type { Vec3 } from '../../space'
import type { LitSurface } from '../emission'

const ROUND_SIDES = 96

/** Corner points of a lit surface's outline in its own frame; a cap is outlined by its rim. Metres. */
export function outlineOf(surface: LitSurface): readonly Vec3[] {
  switch (surface.shape) {
    case 'disc':
      return polygon(ROUND_SIDES, surface.radiusM, 0)
    case 'rectangle':
      return rectangle(surface.widthM, surface.heightM)
    case 'octagon':
      // widthM is across the flats; the corners lie further out.
      return polygon(8, surface.widthM / 2 / Math.cos(Math.PI / 8), 0, Math.PI / 8)
    case 'cap':
      return polygon(ROUND_SIDES, surface.diameterM / 2, surface.hollow ? 0 : -surface.depthM)
  }
}

const rectangle = (width: number, height: number): readonly Vec3[] => [
  [-width / 2, -height / 2, 0],
  [width / 2, -height / 2, 0],
  [width / 2, height / 2, 0],
  [-width / 2, height / 2, 0],
]

const polygon = (sides: number, radius: number, z: number, from = 0): readonly Vec3[] =>
  Array.from({ length: sides }, (_, i) => {
    const angle = from + (2 * Math.PI * i) / sides
    return [radius * Math.cos(angle), radius * Math.sin(angle), z]
  })
