/** The graph of imports by name: the floor of each name, and the fewest arrows that imply all imports. */

/** The names that each name imports. */
export type Imports = ReadonlyMap<string, ReadonlySet<string>>;

/** All names that a name imports, directly or indirectly. */
function reached(imports: Imports, from: string): ReadonlySet<string> {
  const seen = new Set<string>();
  const follow = (name: string): void => {
    for (const next of imports.get(name) ?? []) {
      if (seen.has(next)) continue;
      seen.add(next);
      follow(next);
    }
  };
  follow(from);
  return seen;
}

/** For each name, what it reaches and what does not reach it back. Names in a circle are equals. */
function below(imports: Imports): Imports {
  const all = new Map([...imports.keys()].map((name) => [name, reached(imports, name)]));
  return new Map(
    [...all].map(([name, others]) => [
      name,
      new Set([...others].filter((other) => !all.get(other)?.has(name))),
    ]),
  );
}

/** For each name, the number of floors below it: the longest chain of its imports. */
export function floorsOf(imports: Imports): ReadonlyMap<string, number> {
  const under = below(imports);
  const floors = new Map<string, number>();
  const floorOf = (name: string): number => {
    const known = floors.get(name);
    if (known !== undefined) return known;
    const floor = Math.max(-1, ...[...(under.get(name) ?? [])].map(floorOf)) + 1;
    floors.set(name, floor);
    return floor;
  };
  for (const name of imports.keys()) floorOf(name);
  return floors;
}

/** The transitive reduction: leaves out names that are also imported indirectly. */
export function reduced(imports: Imports): Imports {
  const under = below(imports);
  return new Map(
    [...under].map(([name, others]) => {
      const direct = [...others].filter(
        (other) => ![...others].some((between) => under.get(between)?.has(other)),
      );
      return [name, new Set(direct)];
    }),
  );
}
