import type { Sitting } from '../../sitting'
import type { Read } from '../derived'

/**
 * What the light gives way by so that the metered place keeps its exposure; 1 where nothing does, or nothing is read
 * yet.
 */
export function pictureGain(sitting: Sitting, read: Read | null): number {
  if (sitting.reExpose === 'nothing' || !read) return 1
  return 1
}
