export { STRAND_KINDS, type StrandBinding, type StrandKind } from './binding'
export * from './strands'
