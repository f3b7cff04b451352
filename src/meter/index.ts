/**
 * meter: light arriving at a point. In: a rig, a ray caster over its bodies, a place (world metres, unit normal);
 * out: per source, luminous exposure in lx·s split into direct (quadrature over the lit surface) and bounced (path
 * traced from the place). Never uses bounce: it is the second of the two routes to one answer.
 */
export * from './arrivals'
export * from './bodies'
export * from './bounce'
export * from './direct'
export * from './edge'
export * from './half-room'
export * from './half-room-bounce'
export * from './mirrored'
export * from './outline'
export * from './scene'
