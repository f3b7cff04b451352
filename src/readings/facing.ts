import { elevationAngle } from '../camera'
import { degrees, subtract } from '../space'
import { azimuthFromNoseDeg } from './placing'
import { absent, GEOMETRY, PRACTICE, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { figure, lengthBand, lengthPhrase, side, signed } from './words'

/** Under this the head counts as square to the lens, or the light as straight from the front. Common practice, no source. */
const SQUARE_DEG = 5

/** Broad: the side of the face that the lens sees more of is the lit one. Short: it is the other. */
export function broadShortReading(stage: Stage): Reading {
  const { key, sitting, marks } = stage
  const place = { name: 'face', at: marks.eyePoint }
  const formula = 'sign of (key − nose) against sign of (lens − nose), seen from above'
  const missing = (sentence: string) => absent({ id: 'face.side', place, formula, source: PRACTICE, sentence })
  if (!key) return missing('no source is on.')
  if (key.remote?.kind === 'around') return missing(`${key.letter} comes from all round.`)
  const lens = azimuthFromNoseDeg(stage, sitting.camera.positionM)
  const light = azimuthFromNoseDeg(stage, key.frame.origin)
  if (Math.abs(lens) < SQUARE_DEG) return missing('the face is square to the lens: it has no broad and no short side.')
  if (Math.abs(light) < SQUARE_DEG) return missing(`${key.letter} stands before the nose and lights both sides.`)
  const broad = lens > 0 === light > 0
  return reading({
    id: 'face.side',
    value: broad ? 'broad' : 'short',
    unit: '',
    text: broad ? 'Broad' : 'Short',
    place,
    sentence: `lighting: the lens sees more of the side at ${side(lens)}, and ${key.letter} lights the one at ${side(light)}.`,
    why: { formula, filled: `${figure(light)}° and ${figure(lens)}° from the nose`, source: PRACTICE },
    sourceId: key.id,
  })
}

/** Head and shoulders are taken from eye height; lower shows the nostrils, higher the crown. */
export function lensHeightReading({ sitting, marks, units }: Stage): Reading {
  const { positionM, aimM } = sitting.camera
  const [height, above] = [positionM[1], positionM[1] - marks.eyePoint[1]]
  const [dx, dy, dz] = subtract(aimM, positionM)
  const tilt = degrees(elevationAngle(dy, Math.hypot(dx, dz)))
  const where =
    Math.abs(above) < 0.02
      ? 'at the eye line'
      : `${lengthPhrase(Math.abs(above), units)} ${above > 0 ? 'above' : 'below'} the eye line`
  return reading({
    id: 'camera.lensHeight',
    value: height,
    unit: units === 'metres' ? 'm' : '',
    text: lengthPhrase(height, units).replace(/ m$/, ''),
    band: lengthBand(units),
    place: { name: 'lens', at: positionM },
    sentence: `is the height of the lens, ${where}, tilted ${signed(tilt, 0)}°.`,
    why: {
      formula: 'lens − eye line',
      filled: `${figure(positionM[1], 2)} − ${figure(marks.eyePoint[1], 2)} m`,
      source: GEOMETRY,
    },
  })
}
