import { type ESTree, type Plugin, parseAst } from 'vite'

/** Chunks that hold classes of libraries whole, of which threads call a few methods. */
const CHUNKS = ['three-values', 'three', 'light']
/** Whose classes; the walk round, which is handed all of three by name, has a three of its own. */
const LIBRARY = /node_modules\/(three\/src|three-mesh-bvh)\//
/** What never has an object of theirs in hand. */
const APART = /node_modules\/(?!three)|node_modules\/three\/build|\/ui\/walk\//
/** Called by one another alone: three's own files, and rays asked of three's objects. */
const NEVER = ['toJSON', 'fromJSON', 'raycast']

/** A method, or what stands outside of all methods: which names it mentions. */
interface Part {
  readonly method?: string
  readonly names: Set<string>
}

const isNode = (value: unknown): value is ESTree.Node => typeof value === 'object' && value !== null && 'type' in value

const childrenOf = (node: ESTree.Node): ESTree.Node[] => Object.values(node).flat().filter(isNode)

/** Of a class, or given to `this` as it is made. */
function methodName(node: ESTree.Node): string | undefined {
  if (node.type === 'MethodDefinition' && !node.computed && node.key.type === 'Identifier')
    return node.kind === 'constructor' ? undefined : node.key.name
  if (node.type !== 'ExpressionStatement' || node.expression.type !== 'AssignmentExpression') return undefined
  const { left, right } = node.expression
  const isGiven = left.type === 'MemberExpression' && left.object.type === 'ThisExpression' && !left.computed
  return isGiven && right.type === 'FunctionExpression' ? left.property.name : undefined
}

const bodyOf = (node: ESTree.Node): ESTree.Node[] =>
  node.type === 'ExpressionStatement' && node.expression.type === 'AssignmentExpression'
    ? childrenOf(node.expression.right)
    : childrenOf((node as ESTree.MethodDefinition).value)

function partsOf(code: string): Part[] {
  const outside: Part = { names: new Set() }
  const parts = [outside]
  const visit = (node: ESTree.Node, part: Part): void => {
    if (node.type === 'Identifier') part.names.add(node.name)
    if (node.type === 'Literal' && typeof node.value === 'string') part.names.add(node.value)
    const method = methodName(node)
    if (method === undefined) for (const child of childrenOf(node)) visit(child, part)
    else {
      const inner: Part = { method, names: new Set() }
      parts.push(inner)
      for (const child of bodyOf(node)) visit(child, inner)
    }
  }
  visit(parseAst(code), outside)
  return parts
}

/** Names of methods that nothing mentions but what is itself unused. */
function unusedOf(library: readonly Part[], others: ReadonlySet<string>): Set<string> {
  const methods = new Set(library.flatMap(({ method }) => method ?? []))
  let unused = new Set<string>()
  for (;;) {
    const named = new Set(others)
    for (const { method, names } of library)
      if (method === undefined || !unused.has(method)) for (const name of names) named.add(name)
    const found = new Set([...methods].filter((name) => NEVER.includes(name) || !named.has(name)))
    if (found.size === unused.size) return found
    unused = found
  }
}

function without(code: string, unused: ReadonlySet<string>): string {
  const cuts: ESTree.Node[] = []
  const visit = (node: ESTree.Node): void => {
    const method = methodName(node)
    if (method !== undefined && unused.has(method)) cuts.push(node)
    else childrenOf(node).forEach(visit)
  }
  visit(parseAst(code))
  return cuts.reduceRight((rest, { start, end }) => rest.slice(0, start) + rest.slice(end), code)
}

/**
 * Of classes that come whole, methods whose names stand nowhere in what is built are left out: no builder dares to, as a name may be
 * put together at run time, which neither three nor three-mesh-bvh nor we do.
 */
export function unusedMethods(): Plugin {
  let unused: Set<string> | undefined
  return {
    name: 'unused-methods',
    apply: 'build',
    renderStart() {
      unused = undefined
    },
    renderChunk(code, { name }, _, { chunks }) {
      if (!CHUNKS.includes(name)) return null
      if (!unused) {
        const modules = Object.values(chunks).flatMap((chunk) => Object.entries(chunk.modules))
        const library: Part[] = []
        const others = new Set<string>()
        for (const [id, module] of modules)
          if (LIBRARY.test(id)) library.push(...partsOf(module.code ?? ''))
          else if (!APART.test(id)) for (const [word] of (module.code ?? '').matchAll(/[\w$]+/g)) others.add(word)
        unused = unusedOf(library, others)
      }
      return { code: without(code, unused), map: null }
    },
  }
}
