import type { DataTexture } from 'three'
import type { IndirectLight, Receivers } from '../bounce'
import type { Rig } from '../rig'
import type { Vec3 } from '../space'
import { carriedWeights } from './carried-weights'
import { strip } from './table'

/** A source's settled bounce as the shaders read it, per 1 cd·s in white: irradiance in 1/m². */
export interface BounceTextures {
  /** One entry a vertex of the figure geometry. */
  readonly vertices: DataTexture
  readonly vertexValues: Float32Array
  /** One entry a patch of the set, of balls and of gear; then one a cell of the eyes' maps. */
  readonly patches: DataTexture
}

export function bounceTextures(light: IndirectLight, receivers: Receivers, rig: Rig, whiteGain: Vec3): BounceTextures {
  const vertexValues = figureValues(light, receivers, rig, whiteGain)
  return { vertices: strip(vertexValues), vertexValues, patches: strip(patchValues(light, whiteGain)) }
}

function patchValues({ patches, eyes }: IndirectLight, whiteGain: Vec3): Float32Array {
  const count = (patches.length + eyes.length) / 3
  const values = new Float32Array(Math.max(1, count) * 4)
  for (let i = 0; i < count; i++)
    for (let band = 0; band < 3; band++) {
      const k = 3 * i + band
      values[4 * i + band] = (k < patches.length ? patches[k] : eyes[k - patches.length]) * whiteGain[band]
    }
  return values
}

/** From the proxies' vertices to all vertices of the figure geometry, in its order (parts one after another). */
function figureValues(light: IndirectLight, receivers: Receivers, rig: Rig, whiteGain: Vec3): Float32Array {
  const parts = rig.figures.flatMap((figure) => figure.posed.parts.map((posed) => ({ figure, posed })))
  const total = parts.reduce((sum, { posed }) => sum + posed.part.headWeight.length, 0)
  const values = new Float32Array(total * 4)
  let first = 0
  for (const { figure, posed } of parts) {
    const count = posed.part.headWeight.length
    const place = receivers.figures
      .find(({ figureId }) => figureId === figure.id)
      ?.parts.find(({ name }) => name === posed.name)
    if (place) spread(values.subarray(first * 4), light, place, posed, whiteGain)
    first += count
  }
  return values
}

type PartReceivers = Receivers['figures'][number]['parts'][number]
type PosedPart = Rig['figures'][number]['posed']['parts'][number]

function spread(
  values: Float32Array,
  light: IndirectLight,
  { first, vertexOf }: PartReceivers,
  { part, mesh }: PosedPart,
  whiteGain: Vec3,
): void {
  const { proxyCorners } = part
  const count = part.headWeight.length
  const weights = carriedWeights(part)
  const receiverOf = new Int32Array(count).fill(-1)
  vertexOf.forEach((vertexNumber, i) => {
    receiverOf[vertexNumber] = first + i
  })
  for (let v = 0; v < count; v++)
    for (let corner = 0; corner < 3; corner++) {
      const from = proxyCorners[v * 3 + corner]
      const receiver = receiverOf[from]
      const weight = weights[v * 3 + corner]
      if (receiver < 0 || weight === 0) continue
      const share = weight * growth(light.leans, receiver, mesh.normals, from, v)
      for (let band = 0; band < 3; band++)
        values[v * 4 + band] += share * light.vertices[receiver * 3 + band] * whiteGain[band]
    }
}

/** A lean says little of a normal far from the vertex's own. */
const [LEAST_GROWTH, MOST_GROWTH] = [0.2, 3]

/** What the light of a vertex is worth where the surface faces as at another. The difference of the two: a head may have turned since. */
function growth(leans: Float32Array, receiver: number, normals: Float32Array, from: number, to: number): number {
  let grown = 1
  for (let axis = 0; axis < 3; axis++)
    grown += leans[3 * receiver + axis] * (normals[3 * to + axis] - normals[3 * from + axis])
  return Math.min(MOST_GROWTH, Math.max(LEAST_GROWTH, grown))
}
