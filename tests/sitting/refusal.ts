import { EditRefused, type Problem } from '../../src/sitting'

/** What a refused edit says; an edit that is carried out fails the test. */
export function refusal(edit: () => unknown): Problem {
  try {
    edit()
  } catch (error) {
    if (error instanceof EditRefused) return error.problem
    throw error
  }
  throw new Error('the edit was carried out')
}
