import type { Vec3 } from '../../space'
import { buildProxyMap } from '../proxy'
import type { FigureAsset, FigurePart } from '../types'
import type { Glasses } from './fields'
import { fitGlasses } from './fit'
import { frameMesh } from './frame'
import type { LensPair, SpectacleLens } from './lens'

/** The sitter with glasses on: a further part, the frame, that goes with the head, and two lenses. Takes some 20 ms. */
export function wearGlasses(asset: FigureAsset, glasses: Glasses): FigureAsset {
  const fit = fitGlasses(asset, glasses)
  const lenses: LensPair = {
    left: fit.lens,
    right: mirrorImage(fit.lens),
    coated: glasses.coated,
    pivot: fit.pivot,
    axis: [1, 0, 0],
  }
  return { ...asset, parts: [...asset.parts, framePart(frameMesh(fit, glasses.frame))], lenses }
}

/** Kept by the frame's size, so that a tilted frame has the very indices of before and is known as the same mesh moved. */
const known = new Map<number, { readonly indices: Uint32Array; readonly proxyIndices: Uint32Array }>()

function framePart({ mesh, proxyIndices }: ReturnType<typeof frameMesh>): FigurePart {
  const count = mesh.positions.length / 3
  const same = known.get(count) ?? { indices: mesh.indices, proxyIndices }
  known.set(count, same)
  return {
    name: 'glasses',
    mesh: { ...mesh, indices: same.indices },
    tint: new Float32Array(3 * count).fill(1),
    headWeight: new Float32Array(count).fill(1),
    proxyIndices: same.proxyIndices,
    ...buildProxyMap(mesh.positions, same.indices, same.proxyIndices),
  }
}

/** The other lens: mirrored in x = 0, its x still to the sitter's left. */
function mirrorImage({ frame, ...lens }: SpectacleLens): SpectacleLens {
  const flipped = ([x, y, z]: Vec3): Vec3 => [-x, y, z]
  const [fx, fy, fz] = frame.x
  return {
    ...lens,
    frame: { origin: flipped(frame.origin), x: [fx, -fy, -fz], y: flipped(frame.y), z: flipped(frame.z) },
  }
}
