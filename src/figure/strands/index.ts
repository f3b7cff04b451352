export { STRAND_KINDS, type StrandBinding, type StrandKind, strandsWith } from './binding'
export * from './strands'
