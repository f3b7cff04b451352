import { expect, test } from 'vitest'
import { firstSitting, type Sitting, setCamera, setReExpose } from '../../src/sitting'
import { exposureNote } from '../../src/ui/takes/exposed'

/** Exposure goes with S/N² (ISO 2720): f/8 to f/5.6 or ISO 100 to 200 is a stop. */
const take = (name: string, sitting: Sitting) => ({ name, sitting })
const first = firstSitting()
const plain = setReExpose(setCamera(first, { fNumber: 8, iso: 100 }), 'nothing')

test('by the meter both pictures are exposed alike, whatever the camera is set to', () => {
  const metered = setReExpose(plain, 'powers')
  const byF = setReExpose(setCamera(plain, { fNumber: 4 }), 'f-number')
  expect(exposureNote(take('take 1', metered), take('take 2', byF))).toBeNull()
})

test('one by the meter and one at equal power is told, each by its name', () => {
  const metered = take('take 1', setReExpose(plain, 'powers'))
  expect(exposureNote(metered, take('take 2', plain))).toBe(
    'Not exposed alike: take 1 by the meter, take 2 at equal power.',
  )
  expect(exposureNote(take('take 2', plain), metered)).toContain('take 2 at equal power, take 1 by the meter')
})

test('at equal power, other settings are told with the stops that they make; settings that make none are not', () => {
  const at = (fNumber: number, iso: number) => take('take 2', setCamera(plain, { fNumber, iso }))
  const one = take('take 1', plain)
  expect(exposureNote(one, at(4, 100))).toBe(
    'Not exposed alike: take 1 at f/8, ISO 100, take 2 at f/4, ISO 100, 2.0 stops apart.',
  )
  expect(exposureNote(one, at(8, 200))).toContain(', 1.0 stop apart.')
  expect(exposureNote(one, at(8 * Math.SQRT2, 200))).toBeNull()
  expect(exposureNote(one, take('take 2', setCamera(plain, { shutterS: 1 / 60 })))).toBeNull()
})
