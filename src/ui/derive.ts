/** Loads the sitter and derives the rig. */
export function startDeriving(): void {}
