/** Records that no formula of src/ can answer, each with the reason. A pattern ends in *. */
export const EXCUSES: Readonly<Record<string, string>> = {
  'ANT-*':
    'mean and spread of a survey of people, or a sum or ratio of such means: data, no law; the figure is measured against them where it is built',
  'EYE-IPD': 'means of surveys of people: data, no law',
  'SKIN-XIAO': 'an order of groups in words, without numbers',
  'SKIN-N': 'span of measured indices: data; the Fresnel records use them as inputs',
  'SKIN-NIST': 'a pointer to a data set',
  'MAT-LOSS-*':
    'customary exposure losses, common practice, no source; what the profiles of modifiers give is judged beside them in tests/gear',
  'IES-HEADER': 'wording of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-KEYWORDS': 'wording of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-TILT': 'wording of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-LINE10': 'layout of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-LINE3': 'layout of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-ORDER': 'layout of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-ANGLES': 'layout of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'IES-ABS': 'a flag of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'LDT-FIELDS': 'layout of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'LDT-ISYM': 'codes of a file format: no law of light in it; belongs to the tests of a reader of such files',
  'LDT-TYPICAL': 'usual grid sizes of a file format: custom, no law',
  'SAF-PSE':
    'limits of an expert consensus in cd/m², which a page cannot know of its screen; their rate and area, 3 Hz and 0.006 sr, are bound through the web rule',
  'SAF-PSE-RATE':
    'qualitative, how people differ; nothing follows from it but the limit of three a second, which is bound',
  'SAF-62471': 'names of risk groups of a lamp standard: a classification made by measurement, not a formula',
}

export function excuseFor(id: string): string | null {
  const pattern = Object.keys(EXCUSES).find((key) => (key.endsWith('*') ? id.startsWith(key.slice(0, -1)) : key === id))
  return pattern ? EXCUSES[pattern]! : null
}

/** Surveys and other tables of measurements among the excused: counted apart. */
export const isSurveyData = (id: string): boolean => id.startsWith('ANT-') || id === 'EYE-IPD'
