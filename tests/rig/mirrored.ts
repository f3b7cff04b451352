import type { Rig, RigSource } from '../../src/rig'
import { type Frame, scale } from '../../src/space'

/**
 * A mirrored set whose lit faces are asked at the places where a mirror shows the first set's: they are alike on both sides, and a frame
 * of the other hand counts them from the other. What chance leaves in a picture is then mirrored too, and what differs between
 * two pictures is the program's.
 */
export const askedAcross = (mirrored: Rig): Rig => ({ ...mirrored, sources: mirrored.sources.map(otherHanded) })

const otherHanded = (source: RigSource): RigSource => ({
  ...source,
  emitters: source.emitters.map((emitter) => ({ ...emitter, frame: turned(emitter.frame) })),
})
const turned = (frame: Frame): Frame => ({ ...frame, x: scale(frame.x, -1) })

/** What is drawn by lot, as hairs and lashes are, is not alike on both sides. */
export const withoutStrands = (rig: Rig): Rig => ({
  ...rig,
  figures: rig.figures.map((figure) => ({ ...figure, strands: undefined })),
})
