import type { Probe } from '../meter'
import { stopsBetween } from '../photometry'
import type { RigSource } from '../rig'
import { panelWords } from '../sitting'
import { BANDS } from './bands'
import { sumOf } from './light-table'
import { absent, reading } from './reading'
import type { Stage } from './stage'
import type { Reading } from './types'
import { counted, figure, signed } from './words'

/** A source that something of the face hides from a place of the skin. */
export interface Hiding {
  readonly source: RigSource
  readonly blocker: {
    readonly id: 'nose' | 'chin'
    /** Of the place, and of the shadow. */
    readonly place: string
    readonly words: string
  }
  readonly probe: Probe
  /** Share of the source that is hidden at most. */
  readonly hidden: number
}

/** Of a shadow: what arrives in it, what of that the room sends, and what arrives with the source in view, lx·s. */
interface Depth {
  readonly dark: number
  readonly room: number
  readonly lit: number
  readonly isTraced: boolean
}

/**
 * A shadow is told in stops, and few paths find the bright spots that fill it: under the chin of a hard key in a dark hall the
 * room's share was off by 0.7 stop at 512 paths and by 0.3 at 1,024; at 4,096 it is within 0.1.
 */
const DARK_TIMES = 4

/** Everything else that arrives there is the fill. */
function depthOf(stage: Stage, { source, blocker, probe, hidden }: Hiding): Depth {
  const rest = stage.table
    .at(`shadow.${source.letter}.${blocker.id}`, probe, 'disc', DARK_TIMES)
    .map((light) => (light.source === source ? { ...light, direct: 0 } : light))
  const own = stage.table.direct(source, probe, 'disc', false)
  const fill = sumOf(rest)
  return {
    dark: fill + (1 - hidden) * own,
    room: rest.reduce((sum, { sent }) => sum + sent.room, 0),
    lit: fill + own,
    isTraced: rest.every(({ indirect }) => indirect !== null),
  }
}

/** How deep the shadow is, and how far the room fills it. */
export function depthReadings(stage: Stage, hiding: Hiding): readonly Reading[] {
  const depth = depthOf(stage, hiding)
  return [depthReading(stage, hiding, depth), roomReading(stage, hiding, depth)]
}

/** Stops under the same skin with the source in full view. */
function depthReading(
  stage: Stage,
  { source, blocker, probe, hidden }: Hiding,
  { dark, lit, isTraced }: Depth,
): Reading {
  const common = {
    id: `edge.${source.letter}.${blocker.id}.depth`,
    place: { name: blocker.place, at: probe.point },
    sourceId: source.id,
    hidden,
  }
  const formula = 'log₂(H in the shadow / H with the source in view), same skin'
  if (!(dark > 0))
    return absent({
      ...common,
      formula,
      source: 'the meter',
      sentence: isTraced
        ? `nothing fills the ${blocker.words}: it has no bottom in a black room with one source.`
        : `only bounced light fills the ${blocker.words}, and that is not yet traced.`,
    })
  const stops = stopsBetween(lit, dark)
  return reading({
    ...common,
    value: stops,
    unit: 'stop',
    text: signed(stops),
    band: BANDS.shadow,
    sentence:
      hidden === 1
        ? `is how deep the ${blocker.words} goes. ${fillWords(stage, source)}`
        : `is how deep the ${blocker.words} goes at most: the ${blocker.id} never hides more than ${figure(100 * hidden)} % of ${source.letter}.`,
    why: {
      formula,
      filled: `log₂(${figure(dark, 1)} / ${figure(lit, 1)} lx·s)`,
      source: isTraced ? 'the meter, direct light and bounce' : 'the meter; bounce not yet traced',
    },
  })
}

/** How much shallower a shadow is for the light that walls, ceiling, floor and backdrop send into it. */
function roomReading(stage: Stage, { source, blocker, probe }: Hiding, { dark, room, lit, isTraced }: Depth): Reading {
  const all = roomWords(stage)
  const between = stage.sitting.room.outdoors ? 'over black ground' : 'between black walls'
  const common = {
    id: `edge.${source.letter}.${blocker.id}.room`,
    place: { name: blocker.place, at: probe.point },
    sourceId: source.id,
  }
  const formula = 'log₂(H in the shadow / H in view) − the same without what the room sends'
  const none = (sentence: string) => absent({ ...common, formula, source: 'the meter', sentence })
  if (!isTraced) return none(`what ${all} sends into the ${blocker.words} is not yet traced.`)
  if (!(room > 0)) return none(`${all} sends nothing into the ${blocker.words}.`)
  const without = dark - room
  if (without < LEAST_SHARE * dark) return none(`${all} alone fills the ${blocker.words}: ${between} it has no bottom.`)
  const bare = stopsBetween(lit - room, without)
  const stops = stopsBetween(lit, dark) - bare
  return reading({
    ...common,
    value: stops,
    unit: 'stop',
    text: figure(stops, 1),
    band: BANDS.shadow,
    sentence: `is by how much ${all} fills the ${blocker.words}: ${between} it would lie at ${signed(bare)}.`,
    why: {
      formula,
      filled: `log₂(${figure(dark, 2)} / ${figure(lit, 1)}) − log₂(${figure(without, 2)} / ${figure(lit - room, 1)})`,
      source: 'the meter; walls, ceiling, floor and backdrop by what the place sees of them',
    },
  })
}
/** Less than this share of a shadow's light without the room is noise of the bounce. */
const LEAST_SHARE = 0.02

/** What sends light back all round. */
export const roomWords = ({ sitting }: Stage): string => (sitting.room.outdoors ? 'the ground' : 'the room')

function fillWords(stage: Stage, source: RigSource): string {
  const { sitting, table } = stage
  const others = table.sources.filter((other) => other !== source).map(({ letter }) => letter)
  const panels = counted(sitting.panels.filter(({ kind }) => kind !== 'black').map(panelWords))
  const fills = [...others, ...panels, roomWords(stage)]
  const list = fills.length > 1 ? `${fills.slice(0, -1).join(', ')} and ${fills[fills.length - 1]}` : fills[0]
  return `What fills it: ${list}.`
}
