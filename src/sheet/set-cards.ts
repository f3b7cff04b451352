import { namesOf } from '../paper'
import { figure } from '../readings'
import { wearOf } from '../rig'
import { firstSitting, panelWords, roomAboutX } from '../sitting'
import { fact, lengthRuns, readingOf, some } from './cards'
import type { Card, SheetInput } from './types'
import { angle, exactLength, fromX, length, round, sizeWords } from './words'

/** Sitters, panels, backdrop and room: all else that a stranger needs. */
export function setCards(input: SheetInput): readonly Card[] {
  const { sitting } = input
  return [...sitterCards(input), ...panelCards(input), backdropCard(input), roomCard(sitting.room)].filter(
    (card) => card !== null,
  )
}

const USUAL_SHINE = firstSitting().sitters[0].shine

function sitterCards({ sitting, rig }: SheetInput): readonly Card[] {
  return sitting.sitters.map((sitter, i) => {
    const turned = (degreesTo: number, name: string) =>
      fact(name, Math.abs(degreesTo) < 0.5 ? 'straight to the camera' : round(degreesTo))
    const { hairCut, headwear } = wearOf(sitter)
    const gaze = sitter.gaze ?? 'ahead'
    const posed = rig.figures[i]?.posed
    return {
      title: i === 0 ? 'Sitter' : `Sitter ${i + 1}`,
      facts: some([
        fact('eyes', length(posed?.eyeMidpoint[1] ?? sitter.eyeHeightM)),
        turned(sitter.bodyTurnDeg, 'body'),
        turned(sitter.headTurnDeg, 'head'),
        Math.abs(sitter.chinDeg) < 0.5
          ? null
          : fact('chin', `${angle(sitter.chinDeg)} ${sitter.chinDeg > 0 ? 'up' : 'down'}`),
        Math.abs(sitter.headTiltDeg) < 0.5 ? null : fact('tilt', `crown leans ${round(sitter.headTiltDeg)}`),
        lean(sitter.lean?.forwardM, 'lean', 'forward', 'back'),
        lean(sitter.lean?.asideM, 'aside', 'right', 'left'),
        fact(
          'gaze',
          gaze === 'ahead'
            ? 'ahead with the head'
            : gaze === 'camera'
              ? 'at the lens'
              : `${round(gaze.acrossDeg)} and ${angle(gaze.upDeg)} ${gaze.upDeg < 0 ? 'down' : 'up'} from the head`,
        ),
        sitter.shine === USUAL_SHINE ? null : fact('shine', `${figure(100 * sitter.shine)} %`),
        sitter.shape ? fact('build', 'measures of their own, see the file') : null,
        fact(
          'planned with',
          [
            `${sitter.skin} skin`,
            `${sitter.hair} hair, ${hairCut}`,
            headwear === 'none' ? '' : headwear,
            `${sitter.clothes} clothes`,
            sitter.glasses ? 'glasses' : '',
          ]
            .filter(Boolean)
            .join(', '),
        ),
      ]),
    }
  })
}

/** How far the trunk leans, to the centimetre. */
const lean = (metres = 0, name: string, positive: string, negative: string) =>
  Math.abs(metres) < 0.005 ? null : fact(name, `${exactLength(Math.abs(metres))} ${metres > 0 ? positive : negative}`)

function panelCards({ sitting }: SheetInput): readonly (Card | null)[] {
  const names = namesOf(sitting)
  return sitting.panels.map((panel) => ({
    title: capital(names.get(panel.id) ?? panelWords(panel)),
    facts: some([
      fact('size', sizeWords([panel.widthM, panel.heightM])),
      fact('middle', fromX(panel.centreM)),
      fact('height', [...lengthRuns(panel.centreM[1]), ' of its middle']),
      fact('turn', `front ${round(((panel.turnDeg + 540) % 360) - 180)}`),
      Math.abs(panel.tiltDeg) < 0.5
        ? null
        : fact('tilt', `${angle(panel.tiltDeg)} ${panel.tiltDeg < 0 ? 'down' : 'up'}`),
      (panel.foldDeg ?? 0) > 0 ? fact('fold', `${angle(panel.foldDeg ?? 0)} to the front`) : null,
      panel.back && panel.back !== panel.kind ? fact('back', panel.back) : null,
    ]),
  }))
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

function backdropCard(input: SheetInput): Card | null {
  const { backdrop } = input.sitting
  if (!backdrop) return null
  const mean = backdrop.reflectance.reduce((sum, share) => sum + share, 0) / 3
  const tone = readingOf(input, 'backdrop.tone.paper')
  const isGrey = backdrop.reflectance.every((share) => Math.abs(share - mean) < 0.005)
  return {
    title: 'Backdrop',
    facts: some([
      fact('paper', `${exactLength(backdrop.widthM)} wide, ${exactLength(backdrop.heightM)} high`),
      fact('behind', `${exactLength(backdrop.distanceM)} from X`),
      fact(
        isGrey ? 'grey' : 'colour',
        isGrey
          ? `${figure(100 * mean)} %`
          : `reflects ${backdrop.reflectance.map((share) => `${figure(100 * share)} %`).join(', ')} of red, green, blue`,
      ),
      typeof tone?.value === 'number' ? fact('records as', `${figure(tone.value)} of 255`) : null,
    ]),
  }
}

function roomCard(room: SheetInput['sitting']['room']): Card {
  const percent = (share: number) => `${figure(100 * share)} %`
  if (room.outdoors) return { title: 'Outdoors', facts: [fact('ground', `reflects ${percent(room.floorReflectance)}`)] }
  const { rightM, behindM } = roomAboutX(room)
  return {
    title: 'Room',
    facts: [
      fact(
        'size',
        `${exactLength(room.widthM)} wide, ${exactLength(room.depthM)} deep, ${exactLength(room.heightM)} high`,
      ),
      fact(
        'X stands',
        `${exactLength(rightM)} from the wall at camera right, ${exactLength(behindM)} from the wall behind`,
      ),
      fact(
        'paint',
        `walls ${percent(room.wallReflectance)}, ceiling ${percent(room.ceilingReflectance)}, floor ${percent(room.floorReflectance)}`,
      ),
    ],
  }
}
