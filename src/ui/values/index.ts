export * from './format'
export * from './parse'
export * as quantities from './quantities'
export { parseWithin, type Quantity } from './quantities'
