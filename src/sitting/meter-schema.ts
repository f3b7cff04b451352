import { z } from 'zod'
import { identifier, oneOf, point, quantity, text } from './quantity'

const shareOfHalf = (about: string) => quantity('', [-1, 1], about)

/** Also what edits hold a changed place against. */
export const meterPlaceSchema = z
  .looseObject({
    id: identifier(),
    name: text('As it stands in the readings.'),
    at: z.union(
      [
        z.looseObject({ sitterId: identifier(), landmark: text('A landmark of the figure.') }),
        z.looseObject({
          acrossShare: shareOfHalf('On the backdrop: of half its width from its middle, positive to camera right.'),
          upShare: shareOfHalf('On the backdrop: of half its height from its middle, positive upwards.'),
        }),
        z.looseObject({ pointM: point('A free point.') }),
      ],
      {
        error:
          'a landmark {sitterId, landmark}, a place on the backdrop {acrossShare, upShare} within -1 to 1, or a free point {pointM} within 30 m',
      },
    ),
    receptor: oneOf(
      ['dome', 'shaded dome', 'disc', 'spot'],
      'Dome, dome with its back shaded by a hand, flat disc, or a spot read through the lens.',
    ),
    facing: z
      .union(
        [
          oneOf(['light', 'lens', 'square'], 'At the key, at the lens, or square off what it is held on.'),
          z.looseObject({ sourceId: identifier() }),
          z.looseObject({ aimM: point('The point it is turned to.') }),
        ],
        { error: 'a facing "light", "lens", "square", {sourceId}, or {aimM} within 30 m' },
      )
      .meta({ description: 'Where the meter is pointed.' }),
    sourceIds: z
      .array(identifier(), { error: 'a list of ids of sources' })
      .meta({ description: "Whose light counts; an empty list: nobody's. Left out: all that is on." })
      .optional(),
    counts: oneOf(
      ['flash', 'steady', 'modelling', 'no flash', 'all'],
      'Flash alone, what burns on alone, or modelling lamps alone; no flash: what burns on and modelling lamps; all: all three. Left out: flash and what burns on.',
    ).optional(),
    grid: text('Places with the same word are read together. Left out: alone.').optional(),
  })
  .meta({ id: 'MeterPlace' })

export const ownMeterSchema = z
  .looseObject({
    domeC: quantity('lx·s', [200, 450], 'Incident constant of the dome. Left out: 250, as the disc.').optional(),
  })
  .meta({ id: 'OwnMeter', description: "The user's own meter. Left out: its dome and disc agree." })
