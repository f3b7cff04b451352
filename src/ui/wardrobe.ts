/** What sitters wear on the head comes in files of its own, each fetched when somebody first wears it. */
import coveringUrl from '../../assets/covering.glb?url'
import hatUrl from '../../assets/hat.glb?url'
import longHairUrl from '../../assets/long-hair.glb?url'
import { missingParts, readWornPart, type Wardrobe, type WornName } from '../figure'
import { wearOf } from '../rig'
import type { Sitting } from '../sitting'

const URLS: Readonly<Record<WornName, string>> = { longHair: longHairUrl, covering: coveringUrl, hat: hatUrl }

/** The bytes of an asset. Throws with its address and the answer's status. */
export async function fetchAsset(url: string): Promise<Uint8Array> {
  const response = await fetch(url)
  if (!response.ok) throw new Error(`${url}: ${response.status}`)
  return new Uint8Array(await response.arrayBuffer())
}

/** The page's wardrobe, and the way to fill it. */
export class WardrobeRoom {
  readonly wardrobe: Wardrobe = {}
  private readonly onTheWay = new Set<WornName>()

  /** fetched: told of each part that has come, with its bytes. failed: of each that has not. */
  constructor(
    private readonly fetched: (name: WornName, bytes: Uint8Array) => void,
    private readonly failed: (error: unknown) => void,
  ) {}

  /** True: all that the sitters wear is here. False: what is missing is on the way. */
  has({ sitters }: Pick<Sitting, 'sitters'>): boolean {
    const missing = missingParts(sitters.map(wearOf), this.wardrobe)
    for (const name of missing) if (!this.onTheWay.has(name)) void this.fetch(name)
    return missing.length === 0
  }

  private async fetch(name: WornName): Promise<void> {
    this.onTheWay.add(name)
    try {
      const bytes = await fetchAsset(URLS[name])
      this.wardrobe[name] = readWornPart(name, bytes)
      this.fetched(name, bytes)
    } catch (error) {
      this.failed(error)
    } finally {
      this.onTheWay.delete(name)
    }
  }
}
