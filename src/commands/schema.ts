import { mkdirSync, writeFileSync } from 'node:fs'
import { kitJsonSchema } from '../kit'
import { lessonJsonSchema } from '../lesson'
import { sittingJsonSchema } from '../sitting'

/** npm run schema: writes the JSON Schemas of our files into shared/, from their schemas and gear's field tables. */
mkdirSync('shared', { recursive: true })
for (const [path, schema] of [
  ['shared/sitting.schema.json', sittingJsonSchema()],
  ['shared/kit.schema.json', kitJsonSchema()],
  ['shared/lesson.schema.json', lessonJsonSchema()],
] as const) {
  writeFileSync(path, `${JSON.stringify(schema, null, 2)}\n`)
  console.log(`wrote ${path}`)
}
