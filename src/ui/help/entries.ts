/** Help, as questions with their answers. Words in ‹ › are words of the page. */
export interface HelpEntry {
  readonly group: string
  readonly asks: string
  readonly says: string
}

const START: readonly (readonly [string, string])[] = [
  [
    'Where do I begin?',
    'Drag A, the source, round the sitter on the plan: picture and readings follow. Drag it on the elevation to raise it. ‹undo› names each step and takes it back; ‹history›, once there is a step, lists them and goes to any.',
  ],
  [
    'Is there something ready to look at?',
    '‹sittings› opens six sittings, each with its picture and what to look for in it.',
  ],
  [
    'How do I set an exact value?',
    'Select a thing under the readings and type into its rows: 1.2m, 4ft, 35deg, f/8, -1 stop. A double-click on a row’s name or slider, or Delete on the slider, puts back what was opened.',
  ],
  [
    'What does a drag on the plan keep?',
    'The angle up, so that nearer is softer from the same direction: the stand goes up and down with the distance. With ‹height› beside the word Plan, or Alt held, the stand slides at its height and nearer shines more steeply. Arrow keys and the wheel go by the same rule, a typed tape keeps the angle. A hand that goes along the tape keeps the direction until it is 3° aside; Ctrl, or ⌘, held keeps it throughout, so that only the distance changes; Shift snaps to 5° and 5 cm. A source stops with its edge at the ceiling or the floor, or its lamp before the face, and the plan says so. Several things in hand keep their heights.',
  ],
  [
    'How do I move or copy several things at once?',
    '‹several› lets you choose more than one; with Control held, a press on the plan or on a word adds to what is in hand. A drag or an arrow key then moves them together; copy and remove do all of them. The first sitter stays, as the set is measured from there: let the sitter go and move the rest the other way. Control with C, X and V carries gear to another set, also in another window.',
  ],
  [
    'Why do ‹round› and ‹at› change when only the head turns?',
    'Angles are seen from the sitter’s eyes, and a head that turns about the neck takes its eyes some centimetres aside: a lamp that stays is then a degree or so farther round. Its aim stays too, as a lamp on its stand does; where it was the nose, ‹aim at the nose again› turns the lamp after it.',
  ],
  [
    'Can I see the set from another side?',
    '‹walk round› beside the plan draws it in three dimensions: drag, pinch, or arrow keys with plus and minus.',
  ],
  [
    'How do I work without a mouse?',
    'Tab goes through views, readings, plan, elevation, controls, takes and bar. On a handle, arrow keys move by 1° or 5 cm, with Shift by ten times that. Escape closes what is open, ? opens this help.',
  ],
  [
    'How do I teach with it?',
    '‹lessons› has a course of fifteen and ten faulty sets to diagnose. A prediction comes first; then pictures and numbers show. A goal is tried on this page and judged by its readings.',
  ],
  [
    'Where is my work kept?',
    'In this browser, on this device: nothing is sent anywhere. ‹save› writes the sitting to a file, ‹open› or dropping the file on the page reads it again.',
  ],
  [
    'How do I print it, or take it to the studio?',
    '‹carry and print› writes the set-up sheet as PDF, to print on A4 or Letter, or as one file for a phone: plan and elevation to scale, every foot by two tapes, settings, meter table, order of work and packing list. On the day it takes actual tapes and readings, says what to change, and makes the sitting as built.',
  ],
  [
    'How do I share a sitting, or back everything up?',
    '‹carry and print› gives a link that holds the whole sitting, and the picture as a file that carries it; both open here as a step. It also backs up all that lies on this device into one file and restores it. After the first visit the page works without a network; a newer version waits for ‹update›.',
  ],
]
const LIGHT: readonly (readonly [string, string])[] = [
  [
    'How do I change the modifier or its size?',
    'Select the source and press the modifier’s name under its letter: a list opens. Its size stands under ‹what›. How it shines is computed from its cloth and its lamp.',
  ],
  [
    'How do I feather a source?',
    'Drag where it aims, the small ring on the plan and the elevation, off the face: the middle of the beam then passes the sitter.',
  ],
  [
    'What is the tape?',
    'The distance from the middle of the lit face to the near cheek, or to the crown from behind: what a tape measure reaches on the set.',
  ],
  [
    'How do I fill the shadows, or block light?',
    '‹add› has white, silver, gold and black panels, a mirror, a V-flat and a straight flag. They bounce and block as boards do; so do walls, floor and ceiling, whose tones stand under ‹room›.',
  ],
  [
    'How do I light with the sun, a window or my own lamp?',
    'Kind has sun, overcast sky and window. A lamp whose IES LM-63 or EULUMDAT file is dropped on the page becomes a source.',
  ],
  [
    'Why does the picture stay equally bright when I change the light?',
    'The meter re-exposes: all powers give way together. Under the picture choose that the f-number gives way, or equal power, where nothing does.',
  ],
]
const SITTER: readonly (readonly [string, string])[] = [
  [
    'How do I change the sitter?',
    'Select the sitter. Pose: head, chin, body, lean, gaze, posture. Look: skin, hair, headwear, clothes, glasses. Build: ready shapes, or measures in millimetres.',
  ],
  [
    'How do I light two people or a group?',
    '‹add› has a second sitter, up to six, abreast or in a row behind. The readings then say how many stops apart the ends are.',
  ],
  [
    'Which pattern is that?',
    'The reading names it by the shadow on this face, with its margin to the next name. ‹edge’s middle› draws over the picture, dashed, where half of the key is hidden: the middle of the shadow edge.',
  ],
]
const NUMBERS: readonly (readonly [string, string])[] = [
  [
    'What does ± beside a number mean?',
    'The band of a prediction, and where it comes from: guessed, published, or measured once you calibrated that head and modifier with one real reading (how strong → calibrate). What differs between two pictures of one set is surer than that: lamp, room and meter are the same in both.',
  ],
  [
    'Where does a number come from?',
    '‹why› beside it opens the formula, the numbers put into it, its source and its place, and what it would be with the key 10 cm nearer or farther, the head turned 10° or a taller sitter. Pointing at a reading rings the place on the drawings. ‹pin› keeps a reading at the top.',
  ],
  [
    'How do I meter somewhere else?',
    '‹add› has a meter and grids of the face and the backdrop. Dome, shaded dome, disc or spot, aimed at a source, at the lens or freely, of one source or all, by flash, steady light or modelling lamps.',
  ],
  [
    'How do I get f/8, a ratio or a white backdrop?',
    '‹ask›, then type f/8, 3:1, white or hair -1. The answer is each lamp’s dial and energy, or why it cannot be had; ‹apply› is one step.',
  ],
  [
    'How wide is the edge of a shadow?',
    'Width = size of the source × gap from the thing to the skin ÷ distance of the source from the thing. That is the full width, which all figures of edges here are; 10–90 % is the part of it that the eye sees.',
  ],
  [
    'Is my exposure right?',
    '‹exposure› under the picture: stops map, clip marks, histograms, and a spot meter under the pointer or the arrow keys.',
  ],
]
const COMPARE: readonly (readonly [string, string])[] = [
  [
    'How do I compare two lightings?',
    '‹keep as take 1› and then ‹new take› keep the set as it stands. ‹compare› beside the takes puts two of them side by side, whole, with the edge of the shadow enlarged under each, their numbers, and what differs in words; one take is compared with the set in hand. ‹split picture› puts both in one frame with a divider, in each view, and changes nothing of the set in hand; the names on the picture choose any other take for either side; ‹exposure› then tells by how many stops they differ, and its map puts the figures on the picture.',
  ],
  [
    'How do I show a class what distance or size does?',
    '‹variants›, among the source’s controls, puts its distances, modifiers, sizes, heights or turns side by side at equal exposure; ‹contact sheet› has all rows, the sitter’s too. Under each stand its edge, its loss and what is to be seen of the difference; ‹make it the reference› compares the others with it, ‹split picture› puts the two in one frame and leaves the set as it is; ‹use this one› makes it the set in hand.',
  ],
  [
    'What did my last step change?',
    'The line over the readings says it once both sets are read: edge, pattern, shadow, far cheek, backdrop, or that nothing is to be seen.',
  ],
]
const CARE: readonly (readonly [string, string])[] = [
  [
    'What is the picture not?',
    'A certificate. Exposures are predictions until calibrated; flare, creases of cloth and the shape of a flash tube are left out. README has the whole list.',
  ],
  [
    'What should I mind on the set?',
    'Booms and high stands: counterweight and sandbags. Hot lamps away from cloth and paper. Flash near eyes: not closer than needed, and ask sitters who are sensitive to flashing light. Leads taped down, mains by the local code. Local codes and licensed practice come first.',
  ],
  [
    'There is no picture. What now?',
    'The page says what is missing, most often graphics acceleration. Plan, readings and files work without it; the picture comes back by itself when it can.',
  ],
]

const GROUPS = {
  start: START,
  light: LIGHT,
  sitter: SITTER,
  numbers: NUMBERS,
  compare: COMPARE,
  care: CARE,
}

export const HELP: readonly HelpEntry[] = Object.entries(GROUPS).flatMap(([group, entries]) =>
  entries.map(([asks, says]) => ({ group, asks, says })),
)

const wordsOf = (typed: string): readonly string[] => typed.toLowerCase().split(/\s+/).filter(Boolean)

/** A text in pieces, every other one a word that is sought: the second, the fourth and so on; single letters are left alone. */
export function soughtIn(text: string, typed: string): readonly string[] {
  const words = wordsOf(typed)
    .filter((word) => word.length > 1)
    .sort((a, b) => b.length - a.length)
    .map(escaped)
  return words.length === 0 ? [text] : text.split(new RegExp(`(${words.join('|')})`, 'i'))
}
const escaped = (word: string): string => word.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&')

/** Entries that hold every word, in question or answer, whatever its case. */
export function findHelp(typed: string): readonly HelpEntry[] {
  const words = wordsOf(typed)
  return HELP.filter(({ group, asks, says }) => {
    const text = `${group} ${asks} ${says}`.toLowerCase()
    return words.every((word) => text.includes(word))
  })
}
