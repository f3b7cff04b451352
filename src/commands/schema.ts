import { mkdirSync, writeFileSync } from 'node:fs'
import { sittingJsonSchema } from '../sitting'

/** npm run schema: writes shared/sitting.schema.json from the document's schema and gear's field tables. */
const PATH = 'shared/sitting.schema.json'
mkdirSync('shared', { recursive: true })
writeFileSync(PATH, `${JSON.stringify(sittingJsonSchema(), null, 2)}\n`)
console.log(`wrote ${PATH}`)
