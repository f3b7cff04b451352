import type { Vec3 } from '../../space'

/** Reads the inputs of a record by name and says which record lacks what, so that a mapping error is no NaN. */
export class Inputs {
  constructor(
    private readonly id: string,
    private readonly values: Readonly<Record<string, unknown>>,
  ) {}

  number(name: string): number {
    const value = this.values[name]
    if (typeof value !== 'number') throw new Error(`${this.id}: input ${name}: expected a number, got ${value}`)
    return value
  }

  numbers(name: string): readonly number[] {
    return this.list(name, (value) => typeof value === 'number') as readonly number[]
  }

  /** A list of lists of numbers: points, pairs, spans. */
  rows(name: string): readonly (readonly number[])[] {
    return this.list(name, Array.isArray) as readonly (readonly number[])[]
  }

  points(name: string): readonly Vec3[] {
    return this.rows(name) as unknown as readonly Vec3[]
  }

  point(name: string): Vec3 {
    return this.numbers(name) as unknown as Vec3
  }

  texts(name: string): readonly string[] {
    return this.list(name, (value) => typeof value === 'string') as readonly string[]
  }

  text(name: string): string {
    const value = this.values[name]
    if (typeof value !== 'string') throw new Error(`${this.id}: input ${name}: expected text, got ${value}`)
    return value
  }

  private list(name: string, fits: (value: unknown) => boolean): readonly unknown[] {
    const value = this.values[name]
    if (!Array.isArray(value) || !value.every(fits))
      throw new Error(`${this.id}: input ${name}: expected a list, got ${JSON.stringify(value)}`)
    return value
  }
}
