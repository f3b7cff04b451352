import { radians } from '../../space'
import { type Bindings, form, type Source, table } from './binding'
import type { Inputs } from './inputs'

type Surface = keyof Source['SURFACE_REFLECTANCE']
const reflectance = (surface: Surface) =>
  table((s) => s.SURFACE_REFLECTANCE[surface], {
    within: { absolute: 1e-9 },
    note: 'the words give the spread between samples; src/ holds the published figure itself',
  })

const materials: Bindings = {
  'MAT-WHITE': reflectance('white paint'),
  'MAT-PLASTER': reflectance('plaster'),
  'MAT-TILES': reflectance('white tiles'),
  'MAT-LYELLOW': reflectance('light yellow'),
  'MAT-LGREY': reflectance('light grey'),
  'MAT-LBROWN': reflectance('light brown'),
  'MAT-MGREY': reflectance('mid grey'),
  'MAT-BLACK': reflectance('black'),
  'MAT-CONCRETE': reflectance('concrete'),
  'MAT-BRICK': reflectance('red brick'),
  'MAT-BASO4': table((s) => ({
    powder: s.SURFACE_REFLECTANCE['barium sulphate powder'],
    paint: s.SURFACE_REFLECTANCE['barium sulphate paint'],
  })),
  'MAT-PTFE': reflectance('ptfe'),
  'MAT-PAPER': reflectance('white paper'),
  'MAT-AL': reflectance('aluminium'),
  'MAT-AG': reflectance('silver'),
  'MAT-GREYCARD': form((s) => ({ reflectance: s.GREY_CARD, density: s.densityFromFactor(s.GREY_CARD) }), {
    within: { absolute: 1e-9 },
    note: 'tighter than its 0.01: the card is 18 % by convention, and the density follows',
  }),
  'MAT-DIFF414': form((s, i) => s.lossFromTransmittance(i.number('Y')), {
    within: { relative: 1e-9 },
    note: 'printed 1 1/3, met to 0.003 stop',
  }),
  'MAT-ND-PCT': form((s, i) => i.numbers('D').map((density) => s.factorFromDensity(density)), {
    within: { relative: 1e-9 },
    note: 'printed percentages are rounded by up to 5 %; the record carries the exact ones',
  }),
  'MAT-DOUBLE': form((s, i) =>
    s.transmittanceOfTwoCloths(i.number('T1'), i.number('T2'), i.number('R1'), i.number('R2')),
  ),
}

/** Angles in radians and candela of the record's own one-plane file: lines 11 and 13, after ten keyword and header lines. */
function tableOfFile(i: Inputs): { readonly angles: readonly number[]; readonly candela: readonly number[] } {
  const lines = i.text('file').trim().split('\n')
  const numbers = (line: string | undefined): number[] => (line ?? '').trim().split(/\s+/).map(Number)
  return { angles: numbers(lines.at(-3)).map(radians), candela: numbers(lines.at(-1)) }
}

const files: Bindings = {
  'IES-ZONAL': form((s, i) =>
    i.rows('zones_deg').map(([from, to]) => s.solidAngleOfZone(radians(from!), radians(to!))),
  ),
  'IES-SYNTH': form(
    (s, i) => {
      const { angles, candela } = tableOfFile(i)
      return {
        exact_lm: s.fluxFromCosinePower(candela[0]!, 1),
        avg_times_zonal_5deg_lm: s.fluxByZones(angles, candela),
        piecewise_linear_lm: s.fluxByLines(angles, candela),
        midzone_10deg_lm: s.fluxByMidZones(
          radians(10),
          candela.filter((_, k) => k % 2 === 1),
        ),
      }
    },
    {
      within: { absolute: 0.031 },
      note: 'looser than its 0.01 lm: the record gives the mid-zone sum of unrounded candela, 1000π/cos 5° = 3153.593; the file rounds them to 0.01 cd, which leaves up to 0.005·2π = 0.031 lm (got 3153.607)',
    },
  ),
  'IES-MIDZONE-ERR': form((s, i) => i.numbers('h_deg').map((width) => s.midZoneExcess(radians(width))), {
    note: 'the closed form; 20° zones do not fill 90° evenly, so the sum itself (0.9848) is off from it there: tests/photometry',
  }),
  'IES-CLASSIC-E': form((s, i) => ({
    theta_deg: (s.angleFromNadir(i.number('x_m'), i.number('h_m')) * 180) / Math.PI,
    E_lx: s.illuminanceOnFloor((angle) => i.number('I0') * Math.cos(angle), i.number('x_m'), i.number('h_m')),
  })),
  'LDT-UNITS': form((s, i) => s.intensityFromPerKilolumen(i.number('value'), i.number('Phi_lm'))),
}

const safety: Bindings = {
  'SAF-WCAG': table((s) => s.FLASHES_PER_SECOND),
  'SAF-WCAG-AREA': form((s) => s.flashAreaLimit(), {
    within: { relative: 1e-9 },
    note: 'rounded to 0.006 sr in the text; the record carries the exact value',
  }),
  'SAF-WCAG-DL': table((s) => ({ delta: s.FLASH_CHANGE, darker_below: s.FLASH_DARKER_BELOW })),
  'SAF-PSE-RATE2': form((s) => s.flashSpacing()),
  'SAF-HEAT': form((s, i) => i.numbers('r_m').map((distance) => s.irradianceFromPower(i.number('P_W'), distance))),
  'SAF-TIP': form((s, i) => s.tippingPush(i.number('W_N'), i.number('b_m'), i.number('h_m'))),
  'SAF-BOOM': form((s, i) => s.counterweight(i.number('m1_kg'), i.number('a_m'), i.number('b_m'))),
}

export const materialsFilesSafety: Bindings = { ...materials, ...files, ...safety }
