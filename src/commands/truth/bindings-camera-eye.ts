import { normalize, radians, type Vec3 } from '../../space'
import { type Bindings, form, numbered, table } from './binding'

const degrees = (angle: number): number => (angle * 180) / Math.PI

/** H, V, diagonal of one lens on one frame, degrees. */
const fields = form((s, i) => {
  const [sensorWidthMm, sensorHeightMm] = i.numbers('frame_mm') as [number, number]
  const field = s.fieldOfView({ focalLengthMm: i.number('f_mm'), sensorWidthMm, sensorHeightMm })
  return [field.horizontal, field.vertical, field.diagonal].map(degrees)
})
const fieldsByLens = form((s, i) => {
  const [sensorWidthMm, sensorHeightMm] = i.numbers('frame_mm') as [number, number]
  return Object.fromEntries(
    i.numbers('f_mm').map((focalLengthMm) => {
      const field = s.fieldOfView({ focalLengthMm, sensorWidthMm, sensorHeightMm })
      return [String(focalLengthMm), [field.horizontal, field.vertical, field.diagonal].map(degrees)]
    }),
  )
})
const focus = form((s, i) => {
  const { near, far, total } = s.depthOfField(i.number('f_mm'), i.number('N'), i.number('c_mm'), i.number('s_mm'))
  return { near_mm: near, far_mm: far, total_mm: total }
})

const camera: Bindings = {
  'CAM-AOV-FF': fieldsByLens,
  'CAM-AOV-DX': fieldsByLens,
  'CAM-AOV-44x33': fields,
  'CAM-AOV-MFT': fields,
  'CAM-AOV-645': fields,
  'CAM-AOV-6x6': fields,
  'CAM-CROP': form((s, i) => i.rows('frames_mm').map(([width, height]) => s.cropFactor(width!, height!))),
  'CAM-HYPER-ARMY': form(
    (s, i) => {
      const feet = s.hyperfocalRounded(i.number('f_in'), i.number('N'), i.number('c_in')) / 12
      return { H_ft: feet, near_ft: feet / 2 }
    },
    { within: { relative: 1e-9 }, note: 'printed 20.8 and 10.4; the record carries the quotient' },
  ),
  'CAM-HYPER-033': form((s, i) => s.hyperfocalRounded(i.number('f_mm'), i.number('N'), i.number('c_mm')), {
    within: { relative: 1e-9 },
    note: 'printed 9470 mm; the record carries the quotient',
  }),
  'CAM-HYPER': form((s, i) =>
    i.numbers('f_mm').map((focal, k) => s.hyperfocal(focal, i.numbers('N')[k]!, i.number('c_mm'))),
  ),
  ...numbered('CAM-DOF-', 4, focus),
  'CAM-BLUR': form((s, i) =>
    i.numbers('u_mm').map((at) => s.blurDiameter(i.number('f_mm'), i.number('N'), i.number('s_mm'), at)),
  ),
  'CAM-COC': form((s) => [
    s.circleOfConfusionMm(36, 24),
    s.circleOfConfusionMm(36, 24, 1730),
    s.CIRCLE_OF_CONFUSION_35_MM,
  ]),
  'CAM-MAG': form((s, i) => ({
    u_mm: i.numbers('m').map((m) => s.distanceFromMagnification(i.number('f_mm'), m)),
    total_mm: i.numbers('m').map((m) => s.subjectToSensor(i.number('f_mm'), m)),
  })),
  'CAM-FRAME': form((s, i) =>
    i.numbers('f_mm').map((focal) => s.framingDistance(focal, i.number('h_mm'), i.number('frame_mm'))),
  ),
  'CAM-PERSP': form((s, i) => i.numbers('d_m').map((distance) => s.perspectiveRatio(i.number('D_m'), distance))),
  'CAM-VIEWDIST': form((s, i) => s.viewingDistance(i.number('f_mm'), i.number('enlargement'))),
  'CAM-AIRY': form((s, i) => i.numbers('N').map((n) => s.airyDiameter(i.number('lambda_um'), n))),
  'CAM-LIGHT-ANGLE': form((s, i) =>
    i.numbers('h_m').map((height, k) => degrees(s.elevationAngle(height, i.numbers('x_m')[k]!))),
  ),
  'CAM-COS4': form((s, i) => i.numbers('field_deg').map((angle) => s.cosineFourth(radians(angle)))),
}

const eye: Bindings = {
  'EYE-CORNEA-R': table(
    (s) => ({ gullstrand_mm: 1000 * s.GULLSTRAND_CORNEA_RADIUS_M, average_mm: s.CORNEA_RADIUS_MM }),
    { within: { absolute: 1e-9 }, note: 'the words give the spread between people; src/ holds the means themselves' },
  ),
  'EYE-CORNEA-POWER': form((s, i) => s.surfacePower(i.number('n'), i.number('r_m')), {
    within: { relative: 1e-9 },
    note: 'printed +48.8 D; the record carries the quotient',
  }),
  'EYE-PURKINJE-INF': form((s, i) => s.catchlightDepth(Infinity, i.number('R_mm'))),
  'EYE-CATCH-SIZE': form((s, i) => ({
    h_mm: i.numbers('h_mm').map((height) => s.catchlightSize(height, i.number('u_mm'), i.number('R_mm'))),
    depth_mm: s.catchlightDepth(i.number('u_mm'), i.number('R_mm')),
  })),
  'EYE-CATCH-EXACT': form((s, i) => 2 * s.catchlightEdge(i.number('h_mm') / 2, i.number('u_mm'), i.number('R_mm'))),
  'EYE-CATCH-POS': form((s, i) =>
    i.numbers('t_deg').map((angle) => s.catchlightOffset(radians(angle), i.number('R_mm'))),
  ),
  'EYE-CATCH-LIMIT': form((s, i) => degrees(s.catchlightLimit(i.number('a_mm'), i.number('R_mm')))),
  'EYE-F0': form((s, i) => i.numbers('n').map((n) => s.fresnelNormal(n))),
  'EYE-CONVERGE': form((s, i) =>
    i.numbers('d_m').map((distance) => degrees(s.convergence(i.number('IPD_mm') / 1000, distance))),
  ),
  'EYE-REDEYE': form((s, i) =>
    i.numbers('s_mm').map((apart, k) => degrees(s.flashToLensAngle(apart / 1000, i.numbers('d_m')[k]!))),
  ),
  'EYE-PUPIL-PUP2': form(
    (s) => {
      const [centre, radius] = [s.CORNEA_CENTRE_MM, s.CORNEA_RADIUS_MM]
      const apex: Vec3 = [0, 0, centre + radius]
      const [aside, along] = [0.05, Math.sqrt(radius ** 2 - 0.05 ** 2)]
      const [, , iris] = s.irisBehind(apex, [0, 0, 1], [0, 0, -1])
      const [straight] = s.irisBehind([aside, 0, centre + along], [aside / radius, 0, along / radius], [0, 0, -1])
      const [leaning] = s.irisBehind(apex, [0, 0, 1], normalize([1e-3, 0, -1]))
      return { entrance_pupil_mm: (leaning / 1e-3) * (aside / straight), anterior_lens_mm: apex[2] - iris }
    },
    {
      within: { absolute: 0.05 },
      note: 'the words round to 0.1 mm; a ray along the axis and one that leans tell where the pupil is seen',
    },
  ),
  'EYE-PUPIL-MS': form((s, i) => i.numbers('L').map((luminance) => 1000 * s.pupilDiameter(luminance)), {
    within: { relative: 1e-9 },
    note: 'the words give the spread between people; the fit itself is exact',
  }),
}

export const cameraAndEye: Bindings = { ...camera, ...eye }
