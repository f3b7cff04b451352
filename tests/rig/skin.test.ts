import { expect, test } from 'vitest'
import { ITA_BANDS, linearFromLab, luminanceFromSrgb, SKIN_F0, SKIN_TONES } from '../../src/photometry'
import { SKIN_LAB, sitterAlbedo } from '../../src/rig/skin'

/** Upper and lower limit of each band in degrees: Chardon, Cretois, Hourseau 1991; Del Bino and Bernerd 2013. */
const BANDS = {
  'very light': [55, 90],
  light: [41, 55],
  intermediate: [28, 41],
  tan: [10, 28],
  brown: [-30, 10],
  dark: [-90, -30],
  // Chardon's darkest band has no lower limit.
  'very dark': [-90, -30],
} as const

const ita = ([lightness, , b]: readonly [number, number, number]) => (Math.atan((lightness - 50) / b) * 180) / Math.PI

test.each(Object.keys(BANDS) as (keyof typeof BANDS)[])('skin "%s" lies inside its ITA band', (skin) => {
  const [low, high] = BANDS[skin]
  expect(ita(SKIN_LAB[skin])).toBeGreaterThan(low)
  expect(ita(SKIN_LAB[skin])).toBeLessThan(high)
})

test('the intermediate tone is the published mean of 600 people', () => {
  // Han, Choi, Son 2006, Skin Res. Technol. 12(3): L* 61.7462, a* 9.5618, b* 17.0778, hence ITA 34.52°.
  expect(SKIN_LAB.intermediate).toEqual([61.7462, 9.5618, 17.0778])
  expect(ita(SKIN_LAB.intermediate)).toBeCloseTo(34.5204, 4)
})

test('brown, dark and very dark are as light and as yellow as published cluster centroids, and no redder', () => {
  // Proposed shade guide for human facial skin, IADR 2009 Miami, abstract 120461: 120 faces, five clusters, nose tip and lip.
  for (const [skin, lightness, a, b] of [
    ['brown', 52.5, 17, 18.9],
    ['dark', 37.7, 17.2, 14.7],
    ['very dark', 26.7, 14.6, 14.7],
  ] as const) {
    expect([SKIN_LAB[skin][0], SKIN_LAB[skin][2]]).toEqual([lightness, b])
    expect(SKIN_LAB[skin][1]).toBeLessThan(a)
  }
  // Xiao et al. 2017, Skin Res. Technol.: facial redness (a*) is invariant across four ethnic groups. Here within 4.
  const redness = SKIN_TONES.map((tone) => SKIN_LAB[tone][1])
  expect(Math.max(...redness) - Math.min(...redness)).toBeLessThan(4)
})

test.each([
  // CIELAB and sRGB of one colour: swatches of the Monk Skin Tone scale, 2022, #d7bd96 and #604134.
  [[77.9016164596809, 3.47014723963113, 23.1414284873237], [0xd7, 0xbd, 0x96], 0.530450957481766],
  [[30.6776716578655, 11.6666707700371, 13.3375436660843], [0x60, 0x41, 0x34], 0.0651558757676174],
] as const)('CIELAB %j is the sRGB of that swatch', (lab, srgb, y) => {
  const linear = linearFromLab([...lab])
  // Transfer curve of IEC 61966-2-1.
  const encoded = linear.map((v) => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055))
  encoded.forEach((code, band) => {
    expect(Math.abs(code - srgb[band])).toBeLessThan(0.1)
  })
  expect(0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]).toBeCloseTo(y, 3)
})

test('every albedo is a reflectance, and skin is redder than green than blue', () => {
  for (const skin of Object.keys(BANDS) as (keyof typeof BANDS)[]) {
    const albedo = sitterAlbedo({ skin, hair: 'fair', clothes: 'white' })
    for (const part of Object.values(albedo)) for (const band of part) expect(band > 0 && band < 1).toBe(true)
    const [r, g, b] = albedo.skin
    expect(r > g && g > b).toBe(true)
  }
})

test('gloss of skin at n = 1.4 is 2.78 %', () => {
  // Fresnel at normal incidence, ((n − 1)/(n + 1))².
  expect(SKIN_F0).toBeCloseTo(0.0277777777777778, 15)
})

test('from very light to very dark each tone is darker than the one before, and every band has one', () => {
  const y = SKIN_TONES.map((tone) => luminanceFromSrgb(linearFromLab(SKIN_LAB[tone])))
  expect(y).toEqual([...y].sort((a, b) => b - a))
  expect(ITA_BANDS.map(({ name }) => SKIN_TONES.includes(name))).toEqual(ITA_BANDS.map(() => true))
  // SKIN-CLUSTERS in shared/check-values.json: luminance factor of the darkest cluster. The palest skin's 0.4 is from memory.
  expect(y[y.length - 1]).toBeCloseTo(0.0499, 3)
  expect(y[0]).toBeGreaterThan(0.4)
})
