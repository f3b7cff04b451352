/** Longer apart, two figures are two numbers, ms. */
export const TOGETHER_MS = 1500

/** A number typed figure by figure: with one more figure as long as that is one of the numbers, else the figure alone; null: neither is. */
export function typedNumber(before: string, figure: string, numbers: readonly number[]): string | null {
  const names = (typed: string) => numbers.some((number) => `${number}` === typed)
  return [before + figure, figure].find(names) ?? null
}
