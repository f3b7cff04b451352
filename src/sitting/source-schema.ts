import { z } from 'zod'
import { identifier, oneOf, point, quantity, text, triple, yesOrNo } from './quantity'

/** What belongs to the lamp itself, whatever it is set to: of a head in a sitting, and of one in a kit. */
export const headFacts = {
  energyJ: quantity('J', [1, 6400], 'Energy of the lamp at full power.'),
  guideNumberM: quantity('m', [1, 400], 'ISO 100, with the 65° standard dish; null: 3.2·√J.').nullable(),
  lowestStops: quantity('stops', [-12, 0], 'The lowest setting of the dial.'),
  stepStops: quantity(
    'stops',
    [0.01, 1],
    'From one setting of the dial to the next. Left out: without steps.',
  ).optional(),
  colourTemperatureK: quantity('K', [2000, 20000], 'Correlated colour temperature.'),
  dialStyle: oneOf(
    ['fractions', 'numbers', 'joules'],
    'How the dial is written: 1/4, or a number a stop, or in joules. Left out: fractions.',
  ).optional(),
  dialTop: quantity('', [1, 20], 'Of a dial in numbers: what it says at full. Left out: 10.').optional(),
  massKg: quantity('kg', [0.05, 30], 'Of the lamp head. Left out: not known.').optional(),
  t05S: quantity('s', [0.00001, 0.1], 'Flash duration t0.5 at full power. Left out: not known.').optional(),
  t01S: quantity('s', [0.00001, 0.1], 'Flash duration t0.1 at full power. Left out: 3.3 × t0.5.').optional(),
  t05LowestS: quantity('s', [0.00001, 0.1], 'The same t0.5 at the lowest power. Left out: not known.').optional(),
  t01LowestS: quantity('s', [0.00001, 0.1], 'The same t0.1 at the lowest power. Left out: 3.3 × t0.5.').optional(),
  modelling: z
    .looseObject({
      lamp: oneOf(['halogen', 'LED'], 'Which gives light for its watts: 20 and 90 lm/W.'),
      powerW: quantity('W', [1, 1000], 'At its full brightness.'),
      colourTemperatureK: quantity('K', [2000, 20000], 'Correlated colour temperature.'),
      followsDial: yesOrNo("Goes up and down with the flash's own dial; false: always at its full brightness."),
    })
    .meta({
      id: 'ModellingLamp',
      description: 'Burns in the head between flashes. Left out: halogen, 150 W, 3200 K, with the dial.',
    })
    .optional(),
}

const headSchema = z
  .looseObject({
    name: text('Of the head, as its owner calls it. Left out: none.').optional(),
    energyJ: headFacts.energyJ,
    guideNumberM: headFacts.guideNumberM,
    powerStops: quantity('stops', [-12, 0], '0 is full power, −1 half.'),
    lowestStops: headFacts.lowestStops,
    stepStops: headFacts.stepStops,
    colourTemperatureK: headFacts.colourTemperatureK,
    gelMired: quantity('mired', [-250, 350], 'Shift of a conversion gel, positive: warmer. Left out: none.').optional(),
    gelColour: triple(
      '',
      [0, 1],
      'What a coloured gel lets through of red, green, blue, linear. Left out: all.',
    ).optional(),
    ndStops: quantity('stops', [0, 13], 'Neutral density before the lamp. Left out: none.').optional(),
    dialStyle: headFacts.dialStyle,
    dialTop: headFacts.dialTop,
    massKg: headFacts.massKg,
    t05S: headFacts.t05S,
    t01S: headFacts.t01S,
    t05LowestS: headFacts.t05LowestS,
    t01LowestS: headFacts.t01LowestS,
    modelling: headFacts.modelling,
  })
  .meta({ id: 'Head' })

/** Fields of the modifier depend on its kind and are judged by gear's own tables (S6). */
export const modifierSchema = z
  .looseObject({
    kind: z
      .string({ error: 'the name of a kind of modifier' })
      .meta({ description: 'A kind from the register of gear.' }),
  })
  .meta({ id: 'Modifier' })

/** What a stand is, in a sitting and in a kit. */
export const standFacts = {
  name: text('As its owner calls it.'),
  highestM: quantity('m', [0.3, 8], 'From the floor to the spigot, all of it out.'),
  loadKg: quantity('kg', [0.1, 100], 'The most that it carries; of a boom, at its tip.'),
  boomM: quantity('m', [0.3, 6], 'From the stand to the tip of its boom. Left out: no boom.').optional(),
}

const standSchema = z
  .looseObject(standFacts)
  .meta({ id: 'Stand', description: 'Under the source. Left out: one that is high and strong enough.' })

const kitUseSchema = z
  .looseObject({
    headId: identifier().optional(),
    modifierId: identifier().optional(),
    standId: identifier().optional(),
  })
  .meta({ id: 'KitUse', description: 'The entries of a kit that stand copied here. Left out: none.' })

/** What was measured, in a sitting and in a kit. */
export const calibrationFacts = {
  stops: quantity('stops', [-5, 5], 'By so much this head with this modifier gives more than was worked out.'),
  date: text('Of the reading.'),
  readFNumber: quantity('', [0.5, 181], 'What the meter showed.'),
}

const calibrationSchema = z
  .looseObject(calibrationFacts)
  .meta({ id: 'Calibration', description: 'From one real reading. Left out: as worked out.' })

export const sourceSchema = z
  .looseObject({
    id: identifier(),
    letter: z.string({ error: 'one capital letter A to Z' }).regex(/^[A-Z]$/, { error: 'one capital letter A to Z' }),
    role: oneOf(['key', 'fill', 'hair', 'backdrop', 'kicker'], 'What the source is for.'),
    on: yesOrNo('Whether it fires.'),
    head: headSchema,
    modifier: modifierSchema,
    centreM: point('Centre of the lit face.'),
    aimM: point('The point it is aimed at.'),
    rollDeg: quantity('°', [-180, 180], 'About the axis from the lit face to the aim.'),
    calibration: calibrationSchema.optional(),
    stand: standSchema.optional(),
    modifierKg: quantity('kg', [0.01, 30], 'Mass of the modifier. Left out: not known.').optional(),
    kit: kitUseSchema.optional(),
  })
  .meta({ id: 'Source' })
