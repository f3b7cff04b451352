import { hash32, sobol } from '../space'

/** Numbers of one path: Sobol for the first five, where stratifying pays, hashes after that. */
export class Draws {
  private used = 0
  constructor(
    private readonly index: number,
    private readonly seed: number,
  ) {}
  next(): number {
    const d = this.used++
    if (d < 5) return sobol(this.index, d, hash32(this.seed, d))
    return hash32(hash32(this.seed, this.index), d) / 2 ** 32
  }
}
