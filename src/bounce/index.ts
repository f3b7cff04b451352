/** bounce: radiosity by hit lists. In: a rig and a ray caster; out: one indirect vector per source, 1/m². */
export * from './types'
