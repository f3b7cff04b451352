import { readingsCommand } from './readings-command'

const { code, out, err } = await readingsCommand(process.argv.slice(2))
if (out) process.stdout.write(`${out}\n`)
if (err) process.stderr.write(`${err}\n`)
process.exitCode = code
