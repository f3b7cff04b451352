import { z } from 'zod'
import {
  FRAME_KINDS,
  GAZE_ACROSS_DEG,
  GAZE_UP_DEG,
  GLASSES_FIELDS,
  HAIR_CUTS,
  HEADWEARS,
  LEAN_LIMIT_M,
  SHAPE_FIELD_NAMES,
  SHAPE_FIELDS,
  type ShapeFieldName,
} from '../figure'
import { BALANCE_RANGE_K, SKIN_TONES } from '../photometry'
import { HOOD_RANGES } from './hood'
import { meterPlaceSchema, ownMeterSchema } from './meter-schema'
import { identifier, oneOf, point, quantity, share, text, triple, yesOrNo } from './quantity'
import { sourceSchema } from './source-schema'

/**
 * The document as a zod schema. It says the same as types.ts (tests/sitting/schema.test.ts holds the two together);
 * types.ts is what the code reads, this is what a file is held against. looseObject: unknown keys survive (S3).
 * The ids name the definitions in the JSON Schema.
 */

const turn = (about: string, limit = 180) => quantity('°', [-limit, limit], about)
const tilt = (about: string) => quantity('°', [-90, 90], about)
const boardSize = (about: string) => quantity('m', [0.05, 4], about)

/** Unit, range and meaning from the figure's own table. */
const shapeSchema = z
  .looseObject(
    Object.fromEntries(
      SHAPE_FIELD_NAMES.map((name) => {
        const { unit, range, meaning } = SHAPE_FIELDS[name]
        return [name, quantity(unit, range, `${meaning}.`)]
      }),
    ) as Record<ShapeFieldName, ReturnType<typeof quantity>>,
  )
  .meta({ id: 'Shape', description: 'Of head and shoulders. Left out: the average sitter.' })

const gazeSchema = z
  .union(
    [
      oneOf(['ahead', 'camera'], 'Straight ahead with the head, or at the lens.'),
      z.looseObject({
        acrossDeg: turn('From the head, positive to camera right.', GAZE_ACROSS_DEG),
        upDeg: turn('From the head, positive upwards.', GAZE_UP_DEG),
      }),
    ],
    {
      error: `a gaze "ahead", "camera", or {acrossDeg, upDeg} within ${GAZE_ACROSS_DEG}° across and ${GAZE_UP_DEG}° up or down`,
    },
  )
  .meta({ id: 'Gaze', description: 'Where the eyes look. Left out: straight ahead with the head.' })

const leanWay = (about: string) => quantity('m', [-LEAN_LIMIT_M, LEAN_LIMIT_M], about)
const leanSchema = z
  .looseObject({
    forwardM: leanWay('Of the head, to where the body faces.'),
    asideM: leanWay("Of the head, positive to the sitter's own left: camera right when facing the lens."),
  })
  .meta({ id: 'Lean', description: 'Of the trunk about the seat. Left out: upright.' })

const glassesNumber = ({ unit, range, meaning }: (typeof GLASSES_FIELDS)[keyof typeof GLASSES_FIELDS]) =>
  quantity(unit, range, `${meaning}.`)
const glassesSchema = z
  .looseObject({
    tiltDeg: glassesNumber(GLASSES_FIELDS.tiltDeg),
    frontCurveD: glassesNumber(GLASSES_FIELDS.frontCurveD),
    coated: yesOrNo('Whether the lenses are coated against reflections.'),
    frame: oneOf(FRAME_KINDS, 'Dark or brown plastic, or metal wire.'),
  })
  .meta({ id: 'Glasses', description: 'Before the eyes. Left out or null: none.' })

const sitterSchema = z
  .looseObject({
    id: identifier(),
    xM: quantity('m', [-10, 10], 'Of the eyes at rest over the floor; the first sitter stands at 0.'),
    zM: quantity('m', [-10, 10], 'Of the eyes at rest over the floor; the first sitter stands at 0.'),
    eyeHeightM: quantity('m', [0.5, 2.2], 'Eyes at rest above the floor.'),
    bodyTurnDeg: turn('Positive to camera right.', 90),
    headTurnDeg: turn('Of the head in the room, positive to camera right.', 90),
    headTiltDeg: turn('Crown towards camera right is positive.', 30),
    chinDeg: turn('Positive: chin up.', 30),
    skin: oneOf(SKIN_TONES, 'Tone by ITA band; very dark is the far end of the dark one.'),
    shine: share('0 matt to 1 oily.'),
    hair: oneOf(['dark', 'brown', 'fair', 'grey'], 'Tone of the hair.'),
    clothes: oneOf(['white', 'grey', 'black'], 'Tone of the garment.'),
    hairCut: oneOf(HAIR_CUTS, 'How the hair is worn. Left out: short.').optional(),
    headwear: oneOf(HEADWEARS, 'A covering is a cloth over hair, ears and neck. Left out: none.').optional(),
    headwearTone: oneOf(['white', 'grey', 'black'], 'Of the headwear. Left out: grey.').optional(),
    shape: shapeSchema.optional(),
    gaze: gazeSchema.optional(),
    lean: leanSchema.optional(),
    glasses: glassesSchema.nullable().optional(),
  })
  .meta({ id: 'Sitter' })

export const PANEL_CLOTHS = ['white', 'silver', 'gold', 'black', 'mirror', 'gold mirror'] as const
/** Farther, the halves nearly touch. */
const MOST_FOLD_DEG = 150

const panelSchema = z
  .looseObject({
    id: identifier(),
    kind: oneOf(PANEL_CLOTHS, 'Cloth of the front.'),
    back: oneOf(PANEL_CLOTHS, 'Cloth of the back. Left out: as the front.').optional(),
    widthM: boardSize('Along the floor when upright, unfolded.'),
    heightM: boardSize('Upright when not tilted.'),
    centreM: point('Middle of the board.'),
    turnDeg: turn("Azimuth of the front's normal, from the camera (0) to camera right (90)."),
    tiltDeg: tilt("Of the front's normal, positive upwards."),
    foldDeg: quantity(
      '°',
      [0, MOST_FOLD_DEG],
      'By so much two halves are folded towards the front, about the upright line through the middle. Left out: 0.',
    ).optional(),
  })
  .meta({ id: 'Panel' })

const board = {
  id: identifier(),
  centreM: point('Middle of the card.'),
  widthM: quantity('m', [0.01, 4], 'Along the floor when upright.'),
  heightM: quantity('m', [0.01, 4], 'Upright when not tilted.'),
  turnDeg: turn("Azimuth of the front's normal, from the camera (0) to camera right (90)."),
  tiltDeg: tilt("Of the front's normal, positive upwards."),
  reflectance: share('Of the matt front.'),
}

const objectSchema = z
  .discriminatedUnion(
    'kind',
    [
      z.looseObject({
        id: identifier(),
        kind: z.literal('ball'),
        centreM: point('Middle of the ball.'),
        diameterM: quantity('m', [0.01, 1], 'Of the matt ball.'),
        reflectance: share('Of the matt surface.'),
      }),
      z.looseObject({ ...board, kind: z.literal('card') }),
      z.looseObject({
        ...board,
        kind: z.literal('flag-before-card'),
        gapM: quantity('m', [0.001, 1], 'From the flag to the card.'),
      }),
    ],
    { error: 'an object with kind "ball", "card" or "flag-before-card"' },
  )
  .meta({ id: 'TestObject' })

const backdropSchema = z
  .looseObject({
    widthM: quantity('m', [0.3, 12], 'Centred behind the first sitter.'),
    heightM: quantity('m', [0.3, 8], 'From the floor.'),
    distanceM: quantity('m', [0.15, 15], "Behind the first sitter's eyes at rest."),
    reflectance: triple('', [0, 1], 'Linear reflectance of red, green, blue.'),
  })
  .meta({ id: 'Backdrop' })

const roomSchema = z
  .looseObject({
    widthM: quantity('m', [1.5, 40], 'Along x.'),
    depthM: quantity('m', [1.5, 40], 'Along z.'),
    heightM: quantity('m', [1.8, 15], 'Floor to ceiling.'),
    xM: quantity('m', [-20, 20], "Of the floor's middle."),
    zM: quantity('m', [-20, 20], "Of the floor's middle."),
    // 0.95: a closed room that gave back everything would have no finite light in it.
    wallReflectance: quantity('', [0, 0.95], 'Of the four walls.'),
    ceilingReflectance: quantity('', [0, 0.95], 'Of the ceiling.'),
    floorReflectance: quantity('', [0, 0.95], 'Of the floor.'),
    outdoors: yesOrNo('No walls and no ceiling: the floor is a piece of ground. Left out: a room.').optional(),
  })
  .meta({ id: 'Room' })

const hoodSchema = z
  .looseObject({
    depthM: quantity('m', HOOD_RANGES.depthM, 'Before the front glass.'),
    diameterM: quantity('m', HOOD_RANGES.diameterM, 'Of its opening; the front glass is taken as wide.'),
  })
  .meta({ id: 'Hood', description: 'A black tube on the lens. Left out or null: none.' })

const cameraSchema = z
  .looseObject({
    positionM: point('Of the entrance pupil.'),
    aimM: point('The point in the middle of the frame.'),
    focalLengthMm: quantity('mm', [8, 1200], 'Of the lens.'),
    sensorWidthMm: quantity('mm', [4, 150], 'Horizontal as held: 24 for an upright 24×36 frame.'),
    sensorHeightMm: quantity('mm', [4, 150], 'Vertical as held.'),
    fNumber: quantity('', [0.7, 128], 'Set on the lens.'),
    iso: quantity('', [6, 409600], 'Arithmetic ISO speed.'),
    shutterS: quantity('s', [0.0001, 60], 'Exposure time.'),
    syncS: quantity(
      's',
      [0.0002, 1],
      'Shortest exposure at which the whole frame is open. Left out: 1/200 s.',
    ).optional(),
    hood: hoodSchema.nullable().optional(),
    balanceK: quantity('K', BALANCE_RANGE_K, 'White balance. Left out: 5500 K.').optional(),
    moverMps: quantity('m/s', [0.05, 20], 'Speed of what moves in the frame. Left out: 1 m/s.').optional(),
  })
  .meta({ id: 'Camera' })

const body = {
  format: oneOf(['halfshade.sitting'], 'Says what the file is.'),
  version: z.literal(1, { error: '1' }).meta({ description: 'Of the format.' }),
  title: text('Of the sitting.'),
  note: text('For whoever sets it up.'),
  sitters: z.array(sitterSchema, { error: 'a list of sitters' }),
  sources: z.array(sourceSchema, { error: 'a list of sources' }),
  panels: z.array(panelSchema, { error: 'a list of panels' }),
  objects: z.array(objectSchema, { error: 'a list of test objects' }),
  backdrop: backdropSchema.nullable(),
  room: roomSchema,
  camera: cameraSchema,
  reExpose: oneOf(['powers', 'f-number', 'nothing'], 'What gives way when the light changes.'),
  meterPlaces: z.array(meterPlaceSchema, { error: 'a list of meter places' }),
  meter: ownMeterSchema.optional(),
}

const takeSchema = z
  .looseObject({
    name: text('Of the take.'),
    sitting: z.looseObject(body),
  })
  .meta({ id: 'Take' })

export const sittingSchema = z.looseObject({
  ...body,
  takes: z.array(takeSchema, { error: 'a list of takes' }),
})
