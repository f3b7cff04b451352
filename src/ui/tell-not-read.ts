import { setSession } from './store'

/** A file that could not be read at all, in place of the readings; nothing else has changed. */
export const tellNotRead = (words: string): void =>
  setSession({ notice: { title: `Not opened, nothing is changed. ${words}`, problems: [] }, page: 'readings' })
