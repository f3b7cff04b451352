import { readFileSync } from 'node:fs'
import { readFigureAsset } from '../../src/figure'
import { createRigBuilder } from '../../src/rig'
import { firstSitting, setSitter } from '../../src/sitting'
import { benchBounce } from './bounce'
import { benchRays } from './rays'

/**
 * Ratios within one run on one machine: absolute times move with the machine and its load, ratios hardly do. Outside CI.
 * The first sitting: one umbrella, one white panel, a pale room.
 */
const figure = readFigureAsset(readFileSync('assets/sitter.glb'))
const build = createRigBuilder({ figure })
const first = firstSitting()
const rig = build(first)
const turned = [8, 16, 24, 32].map((headTurnDeg) => build(setSitter(first, first.sitters[0].id, { headTurnDeg })))
benchRays(rig)
benchBounce(rig, turned)
