/** For each owner, the last few things made by their keys: the same record as before, for whoever goes by identity. */
export function lately<Made>(most: number): (owner: object, key: string, make: () => Made) => Made {
  const known = new WeakMap<object, Map<string, Made>>()
  return (owner, key, make) => {
    const made = known.get(owner) ?? new Map<string, Made>()
    known.set(owner, made)
    const one = made.get(key) ?? make()
    // Last in the order of insertion is the last used.
    made.delete(key)
    made.set(key, one)
    if (made.size > most) made.delete([...made.keys()][0])
    return one
  }
}
