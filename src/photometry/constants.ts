/** Every constant of the laws of light, once. Keys in brackets: SOURCES.md. */

/**
 * Incident-light calibration constant C, lx·s for N² = H·S/C. ISO 2720 lets makers choose 240–400 for a flat receptor;
 * 250 is the usual flat value, and one value for flat and dome makes both read alike from one small source on axis.
 */
export const INCIDENT_C = 250
/** The range that ISO 2720 recommends for a flat (cosine) receptor [ISO2720]. */
export const INCIDENT_C_FLAT_RANGE = [240, 400] as const
/** The same for a hemispherical (cardioid) receptor [ISO2720]; 330 and 340 are the usual choices. */
export const INCIDENT_C_DOME_RANGE = [320, 540] as const
export const INCIDENT_C_DOME_USUAL = [330, 340] as const

/** Reflected-light constant K, cd·s/m² for N² = L·S/K: 12.5, the commoner of the two values in use [ISO2720]. */
export const REFLECTED_K = 12.5
export const REFLECTED_K_OTHER = 14
export const REFLECTED_K_RANGE = [10.6, 13.4] as const

/** Reflectance of the photographic grey card; common practice, not a mean that was measured. */
export const GREY_CARD = 0.18

/** Focal-plane exposure that saturates the sensor: H_sat = 78/S lx·s [ISO12232]. */
export const SATURATION_SPEED = 78
/** Focal-plane exposure that gives 0.461 of full scale: H_sos = 10/S lx·s [ISO12232]. */
export const STANDARD_OUTPUT_SPEED = 10
/** q of H = q·L·t/N²: (π/4)·0.9·0.98·cos⁴10° = 0.652, which the standard rounds to 0.65 [ISO12232]. */
export const LENS_FACTOR = 0.65

/** Maximum luminous efficacy, lm/W at 540 THz: a defining constant of the SI [SI9]. */
export const LUMINOUS_EFFICACY = 683
/** The same carried to the peak of V(λ) at 555 nm in standard air, lm/W [CIE15]. */
export const PEAK_LUMINOUS_EFFICACY = 683.002
/** Second radiation constant hc/k, m·K [CODATA18]. */
export const RADIATION_C2 = 0.01438776877
/** First radiation constant for exitance 2πhc², W·m² [CODATA18]. */
export const RADIATION_C1 = 3.741771852e-16
/** Stefan–Boltzmann, W/(m²·K⁴) [CODATA18]. */
export const STEFAN_BOLTZMANN = 5.670374419e-8
