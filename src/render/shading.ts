import type { IUniform, WebGLRenderer, WebGLRenderTarget } from 'three'
import type { RigSource } from '../rig'
import type { Block } from './block'
import { isEnsemble } from './ensemble'
import type { PixelBox } from './eye-boxes'
import { FullScreenPass } from './programs'
import fragment from './shaders/shade.frag.glsl?raw'

/** The programs of a batch: of everything but eyes, and of eyes. */
export interface Shading {
  readonly most: FullScreenPass
  readonly eyes: FullScreenPass
}

/** TOGETHER: several sources as one. EARLY: the first batches. VIRTUAL_POINTS: light of panels. SUMMED: of all their points, as places carry it. OVER_MIRROR: of a source by way of the set's mirror. GATES: a source with gates that few have. INTENSITIES: a measured lamp. SKY: what a mirror sees of it. */
export type Kind = 'TOGETHER' | 'EARLY' | 'VIRTUAL_POINTS' | 'SUMMED' | 'OVER_MIRROR' | 'GATES' | 'INTENSITIES' | 'SKY'

const COMMON_GATES = ['open', 'opening', 'past-cap']

export function gatesOf({ emitters }: RigSource): readonly Kind[] {
  const kinds = emitters.map(({ emission }) => emission.gate.kind).filter((kind) => !COMMON_GATES.includes(kind))
  const measured = kinds.filter((kind) => kind === 'intensities').length
  return [
    ...(kinds.length > measured ? (['GATES'] as const) : []),
    ...(measured > 0 ? (['INTENSITIES'] as const) : []),
    ...(kinds.includes('overcast') ? (['SKY'] as const) : []),
  ]
}

/** What a source needs of the programs that shade its own light. */
export const kindsOf = (source: RigSource): readonly Kind[] => [
  ...(isEnsemble(source) ? (['TOGETHER'] as const) : []),
  ...gatesOf(source),
]

type Blocks = Readonly<Record<'samples' | 'open' | 'emitters' | 'occluders' | 'lenses', Block>>

/** The programs that shade, each made when it is first asked for. */
export class Shadings {
  /** Does a sitter wear glasses? */
  hasLenses = false
  private readonly programs = new Map<string, FullScreenPass>()

  /** isUnrolled: a processor that draws would compile that for seconds, and gain nothing. */
  constructor(
    private readonly uniforms: Record<string, IUniform>,
    private readonly blocks: Blocks,
    private readonly isUnrolled: boolean,
  ) {}

  of(kinds: readonly Kind[], occluderCount: number): Shading {
    const unrolled = this.isUnrolled && !kinds.includes('OVER_MIRROR') ? ['UNROLLED'] : []
    return {
      most: this.program([...kinds, ...unrolled], occluderCount),
      // Their optics go by the points themselves.
      eyes: this.program([...kinds.filter((kind) => kind !== 'SUMMED'), 'EYES'], occluderCount),
    }
  }

  /** Where nothing but the sitters stands in the light, a program without the rest: a seventh faster on a graphics card. */
  private program(kinds: readonly string[], occluderCount: number): FullScreenPass {
    const names = [...kinds, ...(occluderCount > 0 ? ['OCCLUDERS'] : []), ...(this.hasLenses ? ['LENSES'] : [])]
    const key = names.join(' ')
    const known = this.programs.get(key)
    if (known) return known
    const { samples, open, emitters, occluders, lenses } = this.blocks
    const blocks = [
      ...[samples, open, emitters],
      ...(names.includes('OCCLUDERS') ? [occluders] : []),
      ...(names.includes('LENSES') ? [lenses] : []),
    ]
    const defines = Object.fromEntries(names.map((name) => [name, 1]))
    const made = new FullScreenPass({ fragment, uniforms: this.uniforms, blocks, defines })
    this.programs.set(key, made)
    return made
  }

  dispose(): void {
    for (const pass of this.programs.values()) pass.dispose()
  }
}

/** Shades a band of rows, then the eyes that lie in it. */
export function shadeRows(
  renderer: WebGLRenderer,
  { most, eyes }: Shading,
  target: WebGLRenderTarget,
  { y, count }: { readonly y: number; readonly count: number },
  eyeBoxes: readonly PixelBox[],
): void {
  target.scissorTest = true
  target.scissor.set(0, y, target.width, count)
  most.draw(renderer, target)
  for (const box of eyeBoxes) {
    const from = Math.max(y, box.y)
    const rows = Math.min(y + count, box.y + box.height) - from
    if (rows <= 0) continue
    target.scissor.set(box.x, from, box.width, rows)
    eyes.draw(renderer, target)
  }
}
