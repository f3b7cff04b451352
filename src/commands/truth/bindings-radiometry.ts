import { degrees, radians } from '../../space'
import { type Bindings, form, numbered, type Source } from './binding'
import type { Inputs } from './inputs'

const softBox = form((s, i) => {
  const [width, height, distance] = [i.number('s_m'), i.number('t_m'), i.number('d_m')]
  return {
    E_over_L: s.facingRectangle(width, height, distance),
    point_estimate: s.pointEstimate(width * height, distance),
    point_error_stops: -s.stopsFromRatio(s.rectangleOverPoint(width, height, distance)),
  }
})
const discOff = form((s, i) => s.solidAngleOfDiscOffAxis(i.number('R'), i.number('h'), i.number('a')))
const discRow = form((s, i) =>
  i.numbers('a_over_R').map((offset) => s.solidAngleOfDiscOffAxis(1, i.number('h_over_R'), offset)),
)
const triangle = form((s, i) => {
  const [a, b, c] = i.points('vertices')
  return s.solidAngleOfTriangle(a!, b!, c!)
})
const beams = (s: Source, i: Inputs) => i.numbers('n').map((n) => 2 * degrees(s.cosinePowerAngle(n, 0.5)))
const polygon = (corners: string) => form((s, i) => s.irradianceFromPolygon(i.points(corners), i.point('normal')))

export const radiometry: Bindings = {
  ...numbered(
    'RAD-DISK-AXIS-',
    4,
    form((s, i) => s.discFactorOnAxis(i.number('R'), i.number('d'))),
  ),
  'RAD-DISK-E-1': form((s, i) => s.illuminanceFromDisc(i.number('L_cd_m2'), i.number('R_m'), i.number('d_m'))),
  ...numbered(
    'RAD-DISK-OFF-',
    5,
    form((s, i) => s.discFactorOffAxis(i.number('R'), i.number('h'), i.number('a'))),
  ),
  'RAD-DISK-TILT-1': form((s, i) => s.discFactorTilted(i.number('R'), i.number('d'), radians(i.number('w_deg')))),
  ...numbered(
    'RAD-RECT-PAR-',
    4,
    form((s, i) => s.cornerFactorParallel(i.number('a'), i.number('b'), i.number('c'))),
  ),
  ...numbered(
    'RAD-RECT-PERP-',
    4,
    form((s, i) => s.cornerFactorUpright(i.number('a'), i.number('b'), i.number('c'))),
  ),
  'RAD-RECT-LIM': form(
    (s) => ({ parallel: s.cornerFactorParallel(1e7, 1e7, 1), perpendicular: s.cornerFactorUpright(1e7, 1e7, 1) }),
    { note: 'the limit stands for 1e7, as its tolerance says' },
  ),
  ...numbered('RAD-SOFTBOX-', 4, softBox),
  'RAD-POLY-TRI-1': polygon('vertices'),
  'RAD-POLY-TRI-2': polygon('vertices'),
  'RAD-POLY-OCT': polygon('directions'),
  'RAD-POLY-SQ': polygon('vertices'),
  'RAD-POLY-HORIZON': polygon('vertices_before'),
  ...numbered(
    'RAD-OMEGA-RECT-',
    4,
    form((s, i) => s.solidAngleOfRectangle(i.number('a'), i.number('b'), i.number('d'))),
  ),
  ...numbered(
    'RAD-OMEGA-DISK-',
    3,
    form((s, i) => s.solidAngleOfDisc(i.number('R'), i.number('d'))),
  ),
  ...numbered('RAD-OMEGA-DISK-OFF-', 6, discOff),
  'RAD-OMEGA-DISK-OFF-T': discRow,
  'RAD-OMEGA-DISK-OFF-T2': discRow,
  ...numbered('RAD-OMEGA-TRI-', 3, triangle),

  'RAD-FIVE-DISK': form((s, i) => {
    const ratio = s.discOverPoint(1, 2 * i.number('d_over_diameter'))
    return { ratio, error_percent_of_true: 100 * (1 / ratio - 1), error_stops: -s.stopsFromRatio(ratio) }
  }),
  'RAD-FIVE-SQ': form((s, i) => {
    const ratio = s.rectangleOverPoint(1, 1, i.number('d_over_side'))
    return { ratio, error_stops: -s.stopsFromRatio(ratio) }
  }),
  'RAD-FIVE-2x1': form((s, i) => {
    const [long, short] = i.numbers('sides')
    return { ratio: s.rectangleOverPoint(long!, short!, i.number('d_over_long_side')) }
  }),
  'RAD-FIVE-LINE': form((s, i) => s.lineOverPoint(1, i.number('d_over_l'))),
  'RAD-EXPONENT': form((s, i) => i.numbers('R_over_d').map((radius) => s.falloffExponentOfDisc(radius, 1))),
  'RAD-INVSQ-STOPS': form((s, i) => i.numbers('d2_over_d1').map((ratio) => s.inverseSquareStops(1, ratio))),
  'RAD-FACE-FALLOFF': form((s, i) =>
    i.numbers('d_m').map((near) => s.inverseSquareStops(near, near + i.number('depth_m'))),
  ),
  'RAD-COS4': form((s, i) => {
    const ratio = i.numbers('theta_deg').map((angle) => s.cosineFourth(radians(angle)))
    return { ratio, stops: ratio.map((share) => -s.stopsFromRatio(share)) }
  }),

  'RAD-SPHERE-FACE': form((s, i) => s.illuminanceFromSphere(i.number('L'), i.number('R'), i.number('d'))),
  ...numbered(
    'RAD-CAP-HORIZON-',
    5,
    form((s, i) => s.roundSourceIrradiance(radians(i.number('t_deg')), radians(i.number('s_deg')))),
  ),
  'RAD-CAP-HALFSET': form((s, i) =>
    i.numbers('s_deg').map((radius) => s.roundSourceIrradiance(Math.PI / 2, radians(radius))),
  ),
  'RAD-CAP-REACH': form((s, i) =>
    i.numbers('R_m').map((radius) => (s.reachPastTerminator(radius, i.number('d_m')) * 180) / Math.PI),
  ),
  'RAD-STRIP': form((s, i) => i.rows('b_deg').map(([from, to]) => s.stripFactor(radians(from!), radians(to!)))),
  'RAD-HEMI': form((s) => ({
    facing: s.irradianceFromUniformSky(0),
    vertical: s.irradianceFromUniformSky(Math.PI / 2),
  })),
  'RAD-LAMBERT-L': form((s, i) =>
    i.numbers('rho').map((rho, k) => s.luminanceFromIlluminance(i.numbers('E_lx')[k]!, rho)),
  ),
  'RAD-PANEL-FLUX': form((s, i) => ({
    Phi_lm: s.fluxFromLuminance(i.number('L'), i.number('A_m2')),
    I0_cd: s.axialIntensityFromLuminance(i.number('L'), i.number('A_m2')),
  })),
  'RAD-SPHERE-FLUX': form((s, i) => s.fluxOfIsotropic(i.number('I_cd'))),
  'RAD-COSN': form((s, i) => ({
    // The flux by way of the exponent that a lamp of that beam is given.
    Phi_lm: beams(s, i).map((beam) =>
      s.fluxOf({ radiusM: 0, exponent: s.exponentFromBeam(beam), axialIntensity: i.number('I0') }),
    ),
    beam_deg: beams(s, i),
  })),

  ...numbered(
    'RAD-INTSPHERE-',
    3,
    form((s, i) => s.indirectInCavity(i.number('Phi_lm'), s.sphereArea(i.number('r_m')), i.number('rho'))),
  ),
  'RAD-INTSPHERE-M': form((s, i) => i.numbers('rho').map((rho, k) => s.sphereMultiplier(rho, i.numbers('f')[k]!))),
  'RAD-CAVITY': form((s, i) => ({
    E_ind_lx: i.numbers('rho').map((rho) => s.indirectInCavity(i.number('Phi_lm'), i.number('A_m2'), rho)),
    indirect_share_of_total: i.numbers('rho').map((rho) => s.indirectShareInCavity(rho)),
  })),
  'RAD-TWO-PLATES': form((s, i) =>
    i.numbers('r1').map((first, k) => s.illuminanceBetweenPlanes(i.number('E0'), first, i.numbers('r2')[k]!)),
  ),
  ...numbered(
    'RAD-VF-PAR-',
    4,
    form((s, i) => s.viewFactorParallel(i.number('X'), i.number('Y'))),
  ),
  ...numbered(
    'RAD-VF-PERP-',
    3,
    form((s, i) => s.viewFactorPerpendicular(i.number('W'), i.number('H'))),
  ),
  'RAD-VF-CUBE-SUM': form((s) => s.viewFactorParallel(1, 1) + 4 * s.viewFactorPerpendicular(1, 1), {
    note: 'the rule under test is the sum itself',
  }),
  ...numbered(
    'RAD-VF-DISKS-',
    3,
    form((s, i) => s.viewFactorDiscs(i.number('r1'), i.number('r2'), i.number('h'))),
  ),
  'RAD-EES-PERP-OFFSET': form(
    (s, i) => {
      const [a1, a2, b1, b2, c] = i.numbers('F3D_11(a1,a2,b1,b2,c)') as [number, number, number, number, number]
      const [a, b, first, second] = i.numbers('F3D_12(a,b,c1,c2)') as [number, number, number, number]
      const offset = i.numbers('F3D_13(a1,a2,b1,b2,c1,c2,c3)')
      const [d1, d2, e1, e2, c1] = offset as [number, number, number, number, number]
      const start = c1 + offset[5]!
      return {
        F3D_11: s.viewFactorPerpendicularOffset([a1, a1 + a2], [0, c], [0, c], [b1, b1 + b2]),
        F3D_12: s.viewFactorPerpendicularOffset([0, a], [0, first], [first, first + second], [0, b]),
        F3D_13: s.viewFactorPerpendicularOffset([d1, d1 + d2], [0, c1], [start, start + offset[6]!], [e1, e1 + e2]),
      }
    },
    {
      within: { absolute: 6e-6 },
      note: 'the figures of the source were not seen; read as perpendicular plates with gaps a1, b1 from the common line and c2 along it, all three printed values come out to their last digit (0.0718177, 0.0605048, 0.0162605), which no other reading tried does',
    },
  ),
  'RAD-KM': form((s) => s.LUMINOUS_EFFICACY),
}
