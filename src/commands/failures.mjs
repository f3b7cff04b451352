/** A vitest reporter: what failed, errors outside of tests too, a line or more each, to the file named in FAILURES_FILE. */
import { appendFileSync } from 'node:fs'

export default class Failures {
  onTestRunEnd(modules, outsideErrors) {
    const lines = modules.flatMap((module) => [
      ...[module, ...module.children.allSuites()].flatMap((part) =>
        part.errors().map(({ message }) => `${module.relativeModuleId}: ${message}`),
      ),
      ...[...module.children.allTests('failed')].map((test) => {
        const messages = test.result().errors.map(({ message }) => message)
        return `${module.relativeModuleId}: ${test.fullName}\n  ${messages.join('\n  ')}`
      }),
    ])
    lines.push(...outsideErrors.map(({ message, stack }) => `outside of tests: ${message}\n${stack ?? ''}`))
    appendFileSync(process.env.FAILURES_FILE, lines.map((line) => `${line}\n`).join(''))
  }
}
