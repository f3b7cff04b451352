import { type Block, bold, type PaperSize, type Picture, type PrintDocument, type Section, type Words } from '../print'
import { figure } from '../readings'
import { drawingsOf } from './drawings'
import type { Fact, MeterRow, SetUpSheet, SheetInput, TapeRow } from './types'
import { feet } from './words'

/** Of the names of facts, mm. */
const NAMES_MM = 18
/** Of the picture beside the camera card, mm. */
const PICTURE_MM = 31

export interface SheetPaper {
  readonly paper: PaperSize
  readonly madeAt: Date
  /** The expected result; null: left out. */
  readonly picture: Picture | null
  /** Of the picture, such as that it is not drawn to its end; left out or null: nothing. */
  readonly pictureNote?: string | null
}

/** The sheet as a document to be printed. */
export function sheetDocument(input: SheetInput, sheet: SetUpSheet, how: SheetPaper): PrintDocument {
  const drawn = drawingsOf(input, how.paper, sheet.look)
  return {
    title: sheet.title,
    subtitle: sheet.look,
    notes: [dateWords(how.madeAt), `version ${sheet.version}`],
    madeAt: how.madeAt,
    lead: drawn.lead,
    sections: [
      cameraSection(sheet, how),
      ...sheet.sources.map(({ title, facts }) => ({ title, blocks: [factTable(title, facts)] })),
      tapeSection(sheet),
      meterSection(sheet),
      ...sheet.set.map(({ title, facts }) => ({ title, blocks: [factTable(title, facts)] })),
      listed('If, then', sheet.ifThen),
      listed('What shifts it', sheet.sensitivities),
      listed('Watch in this set', sheet.watch),
      listed('Note', sheet.note === '' ? [] : [sheet.note]),
      orderSection(sheet),
      kitSection(sheet),
      ...drawn.more,
    ].filter(({ blocks }) => blocks.length > 0),
    foot: sheet.cautions,
  }
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]

/** '25 November 2026', by the clock of Greenwich, so that a file is the same everywhere. */
const dateWords = (at: Date): string => `${at.getUTCDate()} ${MONTHS[at.getUTCMonth()]} ${at.getUTCFullYear()}`

const factTable = (named: string, facts: readonly Fact[]): Block => ({
  kind: 'table',
  named,
  columns: [{ leastMm: NAMES_MM }, {}],
  wraps: 1,
  rows: facts.map(({ name, words }) => [name, words]),
})

const listed = (title: string, lines: readonly string[]): Section => ({
  title,
  blocks: lines.map((words): Block => ({ kind: 'words', words })),
})

function cameraSection({ camera }: SetUpSheet, { picture, pictureNote }: SheetPaper): Section {
  const card = factTable('camera', camera)
  if (!picture) return { title: 'Camera', blocks: [card] }
  const lines = camera.map(
    ({ name, words }): Block => ({
      kind: 'words',
      words: name === 'mode' ? words : [`${name} `, ...(typeof words === 'string' ? [words] : words)],
    }),
  )
  return {
    title: 'Camera',
    blocks: [
      {
        kind: 'beside',
        left: { kind: 'picture', picture, widthMm: PICTURE_MM },
        leftMm: PICTURE_MM,
        right: {
          kind: 'table',
          named: 'camera',
          columns: [{}],
          wraps: 0,
          rows: lines.map((line) => [line.kind === 'words' ? line.words : '']),
        },
      },
      ...(pictureNote ? [{ kind: 'words' as const, words: `The picture is ${pictureNote}.` }] : []),
    ],
  }
}

function tapeSection({ tape, rims, fixedWords }: SetUpSheet): Section {
  const cell = (m: number, digits: number) => [bold(figure(m, digits)), `\n${feet(m)}`]
  return {
    title: 'Tape on the floor, metres over feet',
    blocks: [
      {
        kind: 'table',
        named: 'every foot by two tapes, and how far it is off the line through X and Z',
        columns: [
          {},
          { head: 'from X', align: 'right' },
          { head: 'from Z', align: 'right' },
          { head: 'off', align: 'right' },
        ],
        wraps: 0,
        rows: tape.map((row) => [row.name, cell(row.fromXM, row.digits), cell(row.fromZM, row.digits), offWords(row)]),
      },
      ...(rims.length > 0
        ? [
            {
              kind: 'table' as const,
              named: 'nearest rim to the near cheek',
              columns: [{}, { align: 'right' as const }],
              wraps: 0,
              rows: rims.map(({ name, m }) => [`${name} to cheek`, [bold(`${figure(m, 2)} m`), `, ${feet(m)}`]]),
            },
          ]
        : []),
      { kind: 'words', words: fixedWords },
    ],
  }
}

function offWords({ offM, digits }: TapeRow): Words {
  const text = figure(Math.abs(offM), digits)
  if (Number(text) === 0) return text
  const side = offM > 0 ? 'R' : 'L'
  return [bold(text), ` ${side}\n${feet(Math.abs(offM))} ${side}`]
}

function meterSection({ meters, meterBand, backdrop }: SetUpSheet): Section {
  const rows = meters.map(({ name, plan }) => [
    name,
    [bold(plan)],
    { empty: 'line' as const },
    { empty: 'line' as const },
  ])
  return {
    title: `Meter${meterBand}`,
    blocks: [
      {
        kind: 'table',
        named: 'planned readings, with room for the actual ones and the difference',
        columns: [{}, { head: 'plan' }, { head: 'actual' }, { head: 'differs' }],
        wraps: 0,
        rows,
      },
      ...(backdrop ? backdropBlocks(backdrop) : []),
    ],
  }
}

/** Planned stops at nine places, each with a line for the actual ones. */
const backdropBlocks = (rows: readonly (readonly MeterRow[])[]): readonly Block[] => [
  { kind: 'words', words: 'Backdrop in the frame, stops against the near cheek:' },
  {
    kind: 'table',
    named: 'backdrop at nine places, stops against the near cheek, from the upper left',
    columns: Array.from({ length: 3 }, () => [{ head: 'plan', align: 'right' as const }, { head: 'actual' }]).flat(),
    rows: rows.map((row) => row.flatMap(({ plan }) => [[bold(plan)], { empty: 'line' as const }])),
  },
  ...(rows.flat().some(({ value }) => value === null)
    ? [
        {
          kind: 'words' as const,
          words: '–: no paper to be seen there, as the sitter hides it or it is out of the frame.',
        },
      ]
    : []),
]

const orderSection = ({ order }: SetUpSheet): Section => ({
  title: `Order of work, ${order.reduce((sum, { minutes }) => sum + minutes, 0)} min`,
  blocks: [
    {
      kind: 'table',
      named: 'order of work with minutes, and what to test after each step',
      columns: [{}, { head: 'min', align: 'right' }, { head: 'step, then test' }],
      wraps: 2,
      rows: order.map(({ what, minutes, test }) => [
        { empty: 'tick' as const },
        `${minutes}`,
        [what, ` Test: ${test}.`],
      ]),
    },
  ],
})

const kitSection = ({ kit, kitWords }: SetUpSheet): Section => ({
  title: 'Kit and packing',
  blocks: [
    {
      kind: 'table',
      named: 'kit, with boxes to tick and who brings it',
      columns: [{}, { align: 'right' }, {}, { head: 'who' }],
      wraps: 2,
      rows: kit.map(({ what, count, massKg }) => [
        { empty: 'tick' as const },
        `${count}`,
        massKg === null ? what : `${what}, ${figure(massKg, 1)} kg`,
        { empty: 'line' as const },
      ]),
    },
    { kind: 'words', words: kitWords },
  ],
})
