/** How far people and stands are off, as a rule: metres and degrees. Common practice, no source. */
export const OFF_M = 0.1
export const OFF_DEG = 10
