/** A growing row of bytes. `little` is the byte order of numbers: OpenEXR little, PNG big. */
export class ByteWriter {
  private bytes: Uint8Array<ArrayBuffer> = new Uint8Array(1024)
  private view = new DataView(this.bytes.buffer)
  private used = 0

  constructor(private readonly little: boolean) {}

  get length(): number {
    return this.used
  }

  u8(value: number): this {
    this.room(1)
    this.view.setUint8(this.used++, value)
    return this
  }
  u32(value: number): this {
    this.room(4)
    this.view.setUint32(this.used, value, this.little)
    this.used += 4
    return this
  }
  i32(value: number): this {
    return this.u32(value >>> 0)
  }
  f32(value: number): this {
    this.room(4)
    this.view.setFloat32(this.used, value, this.little)
    this.used += 4
    return this
  }
  u64(value: number): this {
    const [high, low] = [Math.floor(value / 2 ** 32), value % 2 ** 32]
    return this.little ? this.u32(low).u32(high) : this.u32(high).u32(low)
  }
  raw(bytes: Uint8Array): this {
    this.room(bytes.length)
    this.bytes.set(bytes, this.used)
    this.used += bytes.length
    return this
  }
  /** ASCII, closed by a zero byte. */
  zeroEnded(text: string): this {
    return this.raw(new TextEncoder().encode(text)).u8(0)
  }
  /** Exactly what was written. */
  done(): Uint8Array<ArrayBuffer> {
    return this.bytes.slice(0, this.used)
  }

  private room(more: number): void {
    if (this.used + more <= this.bytes.length) return
    const bigger = new Uint8Array(Math.max(this.used + more, this.bytes.length * 2))
    bigger.set(this.bytes)
    this.bytes = bigger
    this.view = new DataView(bigger.buffer)
  }
}
