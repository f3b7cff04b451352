import { Uniform, UniformsGroup } from 'three'
import type { Records } from './table'

/** A uniform block of vec4 of fixed size, filled with records before each draw. std140 lays vec4 out as they are. */
export class Block {
  readonly group = new UniformsGroup()
  private readonly data: Float32Array

  constructor(
    readonly name: string,
    columns: number,
    rows: number,
  ) {
    this.data = new Float32Array(columns * rows * 4)
    this.group.setName(name)
    this.group.add(new Uniform(this.data))
  }

  fill({ data, rows }: Records): void {
    if (data.length > this.data.length)
      throw new Error(
        `render.Block: ${this.name} holds ${this.data.length / 4} vec4, got ${data.length / 4} of ${rows} records`,
      )
    this.data.set(data)
  }

  dispose(): void {
    this.group.dispose()
  }
}
