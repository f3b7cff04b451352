import type { LessonLook } from '../../lesson'
import { isCrop } from '../../rig'
import { LOOK_WORDS } from '../looks/looks'

/** What a picture of a step shows, in words. */
export const lookWords = (look: LessonLook): string => (look === 'sees' ? 'what the cheek sees' : LOOK_WORDS[look])

/** Shown as a small piece, not as a whole frame. */
export const isCropped = (look: LessonLook): boolean => look === 'sees' || isCrop(look)
