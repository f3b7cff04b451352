import { radians } from '../../space'
import { type Bindings, form, type Source } from './binding'

const span = (pick: (s: Source) => readonly number[]) =>
  form((s) => {
    const [min, max] = pick(s)
    return { min, max, range_stops: s.stopsBetween(min!, max!) }
  })
const stops = (name: string) => form((s, i) => i.numbers(name).map((ratio) => s.stopsFromRatio(ratio)))

/** Whose light goes by its energy or its guide number alone. */
const HEAD = { guideNumberM: null, powerStops: 0, lowestStops: -8, colourTemperatureK: 5500 }

const constants: Bindings = {
  'EXP-K-RANGE': span((s) => s.REFLECTED_K_RANGE),
  'EXP-C-FLAT': span((s) => s.INCIDENT_C_FLAT_RANGE),
  'EXP-C-DOME': span((s) => s.INCIDENT_C_DOME_RANGE),
  'EXP-K-COMMON': form((s) => ({
    K_a: s.REFLECTED_K,
    K_b: s.REFLECTED_K_OTHER,
    difference_stops: s.stopsBetween(s.REFLECTED_K, s.REFLECTED_K_OTHER),
  })),
  'EXP-C-COMMON': form((s) => {
    const [alternative, dome] = s.INCIDENT_C_DOME_USUAL
    return { flat: s.INCIDENT_C, dome, dome_alt: alternative, dome_vs_flat_stops: s.stopsBetween(s.INCIDENT_C, dome) }
  }),
}

const meter: Bindings = {
  'EXP-REFL-EQUIV': form((s, i) => i.rows('K_C').map(([k, c]) => s.reflectanceWhereMetersAgree(k!, c!))),
  'EXP-GREY-OFFSET': form((s, i) => s.spotOverIncident(s.GREY_CARD, i.number('K'), i.number('C'))),
  'EXP-EV-DEF': form((s, i) => i.numbers('N').map((n, k) => s.exposureValue(n, i.numbers('t_s')[k]!))),
  'EXP-EV-TABLE': form((s, i) => ({
    E_lx: i.numbers('EV').map((ev) => s.illuminanceFromEv100(ev)),
    L_cd_m2: i.numbers('EV').map((ev) => s.luminanceFromEv100(ev)),
  })),
  'EXP-EV-ISO': form((s, i) => i.numbers('S').map((iso) => s.evAtIso(0, iso))),
  'EXP-SUNNY16': form((s, i) => {
    const ev = s.SUNNY_16_EV100
    const [flat, dome] = i.numbers('C')
    return {
      EV100: ev,
      E_lx_C250: s.illuminanceFromEv100(ev, flat),
      E_lx_C340: s.illuminanceFromEv100(ev, dome),
      L_cd_m2: s.luminanceFromEv100(ev, i.number('K')),
    }
  }),
  'EXP-INCIDENT-H': form((s, i) =>
    i.numbers('N').map((n) => s.luminousExposureFromFNumber(n, i.number('S'), i.number('C'))),
  ),
  'EXP-INCIDENT-N': form((s, i) =>
    i.numbers('H_lxs').map((h) => s.fNumberFromLuminousExposure(h, i.number('S'), i.number('C'))),
  ),
  'EXP-APEX-SUM': form((s, i) => i.rows('N').map((numbers) => s.fNumberOfAll(numbers))),
  'EXP-DOME': form((s, i) => i.numbers('t_deg').map((angle) => s.receptorResponse('dome', Math.cos(radians(angle))))),
  'EXP-FLATDISC': form((s, i) =>
    i.numbers('t_deg').map((angle) => s.receptorResponse('disc', Math.cos(radians(angle)))),
  ),
  'EXP-RATIO-STOPS': form((s, i) => ({
    side_step_stops: i.numbers('R').map((ratio) => s.stopsFromRatio(ratio)),
    key_over_fill_stops: i.numbers('R').map((ratio) => s.keyOverFillFromHighlightRatio(ratio)),
  })),
  'EXP-RATIO-EQUAL': form((s, i) => i.numbers('s_stops').map((step) => s.highlightRatioFromKeyOverFill(step))),
  'EXP-RATIO-KF': form((s, i) => i.numbers('s_stops').map((step) => s.keyRatioFromKeyOverFill(step))),
  'EXP-PRACTICE-KEY': form((s, i) => ({
    EV100: s.exposureValue(i.number('N'), i.number('t_s')),
    H_lx_s: s.luminousExposureFromFNumber(i.number('N'), i.number('S'), i.number('C')),
  })),
  'EXP-PRACTICE-SYNC': form((s, i) =>
    s.ambientBelowFlash(s.exposureValue(i.number('N'), i.number('t_s')), i.number('EV_ambient')),
  ),
}

const sensor: Bindings = {
  'EXP-H-SAT': form((s, i) => i.numbers('S').map((iso) => s.saturationExposure(iso))),
  'EXP-H-SOS': form((s, i) => i.numbers('S').map((iso) => s.standardOutputExposure(iso))),
  'EXP-HEADROOM': form((s) => ({
    ratio: s.HEADROOM,
    stops: s.HEADROOM_STOPS,
    '18_over_sqrt2_percent': 100 * s.METERED_CARD_SHARE,
  })),
  'EXP-Q': form((s, i) => s.lensFactor(i.number('T'), i.number('v'), radians(i.number('theta_deg')))),
  'EXP-FOCAL-H': form((s, i) => s.focalExposureOfReading(i.number('S'), i.number('K'), i.number('q'))),
  'EXP-LENS-E': form((s, i) => s.focalIlluminance(i.number('L'), i.number('T'), i.number('N'))),
  'EXP-FSTOP-THIRD': form((s, i) => ({
    exact: i.numbers('i').map((third) => s.fNumberFromThird(third)),
    error_stops: i.numbers('i').map((third) => s.markError(s.THIRD_STOP_MARKS[third]!, s.fNumberFromThird(third))),
  })),
  'EXP-FSTOP-FULL': form((s, i) => ({
    exact: i.numbers('nominal').map((_, stop) => s.fNumberFromThird(3 * stop)),
    error_stops: i.numbers('nominal').map((mark, stop) => s.markError(mark, s.fNumberFromThird(3 * stop))),
  })),
  'EXP-SHUTTER': form((s, i) => ({
    exact_denominator: i.numbers('nominal_denominator').map((_, mark) => s.exactDenominator(mark)),
    error_stops: i.numbers('nominal_denominator').map((_, mark) => s.shutterMarkError(mark)),
  })),
  'EXP-SYNC': form((s, i) => {
    const { ambient, flash } = s.shutterChange(i.number('t1_s'), i.number('t2_s'))
    return { ambient_stops: ambient, flash_stops: flash }
  }),
  'EXP-BELLOWS': form((s, i) => i.numbers('m').map((m) => s.extensionLoss(m))),
}

const flash: Bindings = {
  'EXP-GN-LAW': form(
    (s, i) => ({
      N_m: s.fNumberFromGuideNumber(i.number('GN_m'), i.number('d_m')),
      N_ft: s.fNumberFromGuideNumber(i.number('GN_ft'), i.number('d_ft')),
    }),
    { within: { relative: 1e-9 }, note: 'printed to two decimals; the record carries the quotient' },
  ),
  'EXP-GN-ISO': form((s, i) => i.numbers('S').map((iso) => s.guideNumberAtIso(1, 200, iso)), {
    within: { relative: 1e-9 },
    note: 'one printed multiplier is 2.827 for 2.828: the source rounds down there',
  }),
  'EXP-GN-NAVY': form((s, i) => s.guideNumberFromTest(i.number('N'), i.number('d_ft'))),
  'EXP-GN-UNITS': form((s, i) => s.feetFromMetres(i.number('GN_m'))),
  'EXP-BCPS-GN': form((s, i) => {
    const metres = i
      .numbers('BCPS')
      .map((intensity) => s.guideNumberFromAxialIntensity(intensity, i.number('S'), i.number('C')))
    return { GN_m: metres, GN_ft: metres.map((guide) => s.feetFromMetres(guide)) }
  }),
  'EXP-BCPS-005': form((s) => s.incidentConstantOfFeetRule(0.05)),
  'EXP-FLASH-CHAIN': form((s, i) => {
    const energy = s.luminousEnergyFromStored(i.number('W_s'), i.number('eta'))
    const intensity = s.intensityOfIsotropic(energy)
    const exposure = s.illuminanceFromIntensity(intensity, i.number('d_m'))
    const fNumber = s.fNumberFromLuminousExposure(exposure, i.number('S'), i.number('C'))
    const guideNumberM = s.guideNumberFromTest(fNumber, i.number('d_m'))
    const head = { ...HEAD, energyJ: i.number('W_s') }
    return {
      Q_lm_s: energy,
      // A head that is given this guide number, at ISO 100 and C = 250 as the record, shines with this intensity again.
      I_t_cd_s: s.axialIntensity({ ...head, guideNumberM }),
      H_lx_s: exposure,
      N: fNumber,
      GN_m: s.guideNumberFromAxialIntensity(intensity, i.number('S'), i.number('C')),
    }
  }),
  'EXP-FLASH-PANEL': form((s, i) => {
    const [width, height, distance] = [i.number('s_m'), i.number('t_m'), i.number('d_m')]
    const energy = s.luminousEnergyFromStored(i.number('W_s'), i.number('eta')) * i.number('T')
    const exposure = s.luminanceFromFlux(energy, width * height) * s.facingRectangle(width, height, distance)
    return { H_lx_s: exposure, N: s.fNumberFromLuminousExposure(exposure, i.number('S'), i.number('C')) }
  }),
  'EXP-POWER-STOPS': stops('P'),
  'EXP-POPS': stops('n'),
  'EXP-T05T01': form((s) => s.pulseTimeRatio(0.1, 0.5)),
  'EXP-XENON-EFF': form((s) => s.axialIntensity({ ...HEAD, energyJ: 1 }) * s.BARE_DOME_FLUX, {
    holds: (got, expected) => {
      const { min, max } = expected as { min: number; max: number }
      return typeof got === 'number' && got >= min && got <= max
    },
    note: 'lm·s of a head per joule: what its guide number says on the axis of the dish, times all that the bare lamp sends out',
  }),
  'EXP-T05-ENERGY': form((s, i) => i.numbers('level').map((level) => s.shareGivenAtLevel(level))),
  'EXP-TAIL-CUT': form((s, i) => i.numbers('T_s').map((time) => -s.shutterCutStops(i.number('t05_s'), time))),
  'EXP-BLUR': form((s, i) => s.travelDuring(i.number('v_m_s'), i.number('t01_s'))),
  'EXP-ND': form((s, i) => i.numbers('D').map((density) => s.lossFromDensity(density)), {
    within: { relative: 1e-9 },
    note: 'the words give the nominal stops; the record the exact ones',
  }),
  'EXP-TRANS-STOPS': form((s, i) => i.numbers('T').map((share) => s.lossFromTransmittance(share))),
}

export const exposure: Bindings = { ...constants, ...meter, ...sensor, ...flash }
