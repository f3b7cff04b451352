import { createStore } from 'zustand'

/** How many readings have their 'why' open: only then it is worked out what a set a little off would read. */
export const explained = createStore<{ readonly open: number }>(() => ({ open: 0 }))

export const explain = (by: 1 | -1): void => explained.setState(({ open }) => ({ open: open + by }))
