import { bouncePass, HalfRoom, type HalfRoomGrid, type MeterScene, noBounce } from '../../meter'
import { type SeenRoom, seeingProbe, seenRoom } from '../../readings'
import type { Sitting } from '../../sitting'
import { pump } from './pump'

/** Cells along a side: at once, and when nobody moves on. */
const SIDE = { coarse: 64, settled: 96 }
/** Of bounce, each a path through every fourth cell; and those between two pictures on the way. */
const PASSES = 48
const TOLD_EACH = 8

/** What a place of the skin sees. */
export class SeesDesk {
  private readonly room: HalfRoom

  constructor(scene: MeterScene, sitting: Sitting, place: string) {
    this.room = new HalfRoom(scene, seeingProbe(sitting, scene.rig, place))
  }

  /** Within the time of a drag; null when superseded. */
  async coarse(superseded: () => boolean): Promise<SeenRoom | null> {
    const grid = await pump(this.room.grid(SIDE.coarse), superseded)
    const bounce = grid && (await pump(bouncePass(this.room, grid, noBounce(grid), 0), superseded))
    return grid && bounce && seenRoom(grid, bounce)
  }

  /** Finer, told again and again until it is settled; stops as soon as superseded. */
  async settle(superseded: () => boolean, tell: (room: SeenRoom, settled: boolean) => void): Promise<void> {
    const grid: HalfRoomGrid | null = await pump(this.room.grid(SIDE.settled), superseded)
    if (!grid) return
    let bounce = noBounce(grid)
    for (let pass = 1; pass <= PASSES; pass++) {
      const next = await pump(bouncePass(this.room, grid, bounce, pass - 1), superseded)
      if (!next) return
      bounce = next
      if (pass % TOLD_EACH === 0) tell(seenRoom(grid, bounce), pass === PASSES)
    }
  }
}
