import { type Head, type Source, setHead } from '../../sitting'
import { quantities } from '../values'
import { choice, fold, number, type Row } from './model'

/** From daylight flash to a filament lamp and back, and parts of it. Positive: warmer. Common practice, no source. */
const CONVERSIONS = [
  { value: 'none', label: 'none', mired: 0 },
  { value: 'full-cto', label: 'full CTO', mired: 131 },
  { value: 'half-cto', label: '1/2 CTO', mired: 66 },
  { value: 'quarter-cto', label: '1/4 CTO', mired: 33 },
  { value: 'full-ctb', label: 'full CTB', mired: -131 },
  { value: 'half-ctb', label: '1/2 CTB', mired: -66 },
  { value: 'quarter-ctb', label: '1/4 CTB', mired: -33 },
] as const

/** What deep colours let through of red, green and blue: common practice, no source. */
const COLOURS = [
  { value: 'none', label: 'none', passes: null },
  { value: 'red', label: 'red', passes: [0.8, 0.03, 0.03] },
  { value: 'amber', label: 'amber', passes: [0.85, 0.4, 0.05] },
  { value: 'green', label: 'green', passes: [0.15, 0.6, 0.1] },
  { value: 'blue', label: 'blue', passes: [0.05, 0.15, 0.7] },
  { value: 'magenta', label: 'magenta', passes: [0.7, 0.06, 0.45] },
] as const

const OWN = { value: 'own', label: 'as in the file' }

/** Gels and neutral density before a source; a head without them is one that a document leaves them out of. */
export function gelRows({ id, head }: Source): Row {
  const { gelMired = 0, gelColour, ndStops = 0 } = head
  const conversion = CONVERSIONS.find(({ mired }) => mired === gelMired)?.value ?? OWN.value
  const colour = COLOURS.find(({ passes }) => (passes ?? undefined)?.join() === gelColour?.join())?.value ?? OWN.value
  const set = (change: Partial<Head>) => (sitting: Parameters<typeof setHead>[0]) => setHead(sitting, id, change)
  const withOwn = <T extends { value: string; label: string }>(all: readonly T[], value: string) =>
    value === OWN.value ? [...all, OWN] : all
  return fold('gels', 'gels and ND', [
    choice('conversion', {
      label: 'convert',
      named: 'conversion gel',
      value: conversion,
      choices: withOwn(CONVERSIONS, conversion),
      change: (sitting, value) => {
        const mired = CONVERSIONS.find((entry) => entry.value === value)?.mired
        return mired === undefined ? sitting : set({ gelMired: mired === 0 ? undefined : mired })(sitting)
      },
    }),
    number('gelMired', {
      label: 'mired',
      named: 'shift of the conversion gel',
      quantity: quantities.plain('mired', 1),
      value: gelMired,
      range: [-250, 350],
      usual: [-150, 150],
      change: (sitting, value) => set({ gelMired: value === 0 ? undefined : value })(sitting),
    }),
    choice('gelColour', {
      label: 'tint',
      named: 'coloured gel',
      value: colour,
      choices: withOwn(COLOURS, colour),
      change: (sitting, value) => {
        const found = COLOURS.find((entry) => entry.value === value)
        return found ? set({ gelColour: found.passes ?? undefined })(sitting) : sitting
      },
    }),
    number('ndStops', {
      label: 'ND',
      named: 'neutral density',
      quantity: quantities.plain('stops', 0.1),
      value: ndStops,
      range: [0, 13],
      usual: [0, 6],
      change: (sitting, value) => set({ ndStops: value === 0 ? undefined : value })(sitting),
    }),
  ])
}
