/** sitting: the document: schema, version, migrations, edits, history. SI with unit suffixes; rules in SPEC.md. */
export * from './types'
