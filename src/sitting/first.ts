import scene from '../../scenes/notice-board.sitting.json'
import type { Sitting } from './types'

/**
 * The sitting that a first visit opens: one umbrella, one white panel, a pale backdrop, an upright frame. The key stands
 * 45° to camera right of the lens axis, 35° above the eye line, taped 1.00 m from the rim plane to the near cheek of a
 * head turned 15° to camera right; 400 J three and a half stops down give about f/8 there. Its head is a compact one:
 * a longer one would reach into the frame.
 */
export const firstSitting = (): Sitting => scene as unknown as Sitting

/**
 * Where a set is built from a sheet: the first sitting's sitter, looking into the lens, camera, paper, room and meters,
 * the one behind the head held on the paper, wherever that will hang; and no light.
 */
export function emptySitting(): Sitting {
  const first = firstSitting()
  const [sitter] = first.sitters
  return {
    ...first,
    title: 'Empty sitting',
    sitters: [{ ...sitter, headTurnDeg: 0 }],
    sources: [],
    panels: [],
    meterPlaces: first.meterPlaces.map((place) =>
      'pointM' in place.at ? { ...place, at: { acrossShare: 0, upShare: 0 } } : place,
    ),
  }
}
