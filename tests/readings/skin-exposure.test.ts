/**
 * An incident meter reads the light, not the sitter: between the palest and the darkest skin a reading at a place of the face
 * changes by 0.05 stop at most, bounce included. The bound is the light model's own; that it changes little is common
 * practice, no source.
 */
import { expect, test } from 'vitest'
import { defaultModifier } from '../../src/gear'
import { SKIN_TONES } from '../../src/photometry'
import { firstSitting, type Sitting, setSitter } from '../../src/sitting'
import { lamp, setOf, stopsBetween, take } from './set'

const first = firstSitting()
const faces = first.meterPlaces.filter(({ at }) => 'landmark' in at)
const inRoom = (az: number, el: number, modifier = defaultModifier('dish')): Sitting =>
  setOf([lamp('A', { az, el, d: 1.2, modifier })], { room: first.room, meterPlaces: faces })

test.each([
  ['the first sitting', first],
  ['a softbox from the side, in a room', inRoom(45, 35, defaultModifier('softbox'))],
  ['a dish from before and above, in a room', inRoom(0, 40)],
] as const)('%s: incident readings hardly know the skin', (_, set) => {
  const read = (skin: Sitting['sitters'][number]['skin']) =>
    take({ ...setSitter(set, set.sitters[0].id, { skin }), reExpose: 'nothing' }, 512)
  const [pale, dark] = [read(SKIN_TONES[0]), read(SKIN_TONES[SKIN_TONES.length - 1])]
  const ids = pale.readings.map(({ id }) => id).filter((id) => /^(exposure|place)\./.test(id))
  expect(ids.length).toBeGreaterThan(5)
  let most = 0
  for (const id of ids) {
    const stops = stopsBetween(pale.value(id), dark.value(id))
    most = Math.max(most, Math.abs(stops))
    expect(Math.abs(stops), id).toBeLessThanOrEqual(0.05)
  }
  // The bounce of the face is in them: it is small, not left out.
  expect(most).toBeGreaterThan(0.001)
})
