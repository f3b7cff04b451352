import { readFileSync } from 'node:fs'
import { readFigureAsset } from '../../src/figure'
import { assembleRig } from '../../src/rig'
import { firstSitting } from '../../src/sitting'
import { benchBounce } from './bounce'
import { benchRays } from './rays'

/**
 * Ratios within one run on one machine: absolute times move with the machine and its load, ratios hardly do. Outside CI.
 * The first sitting: one umbrella, one white panel, a pale room.
 */
const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const rig = assembleRig(firstSitting(), { figure })
benchRays(rig)
benchBounce(rig)
