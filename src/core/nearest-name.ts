/** Names are compared without case, spaces, hyphens or underscores. */
export const nameKey = (name: string): string => name.toLowerCase().replace(/[\s_-]+/g, '');

/** Edits (insert, drop, change) that turn one text into the other. */
function editDistance(a: string, b: string): number {
  let previous = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const current = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (previous[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      current.push(Math.min(change, (previous[j] as number) + 1, (current[j - 1] as number) + 1));
    }
    previous = current;
  }
  return previous[b.length] as number;
}

interface Near {
  readonly name: string;
  /** Edits between the two; 0.5 where one holds the other. */
  readonly distance: number;
}

function nearest(wanted: string, known: readonly string[]): Near | undefined {
  const key = nameKey(wanted);
  let best: Near | undefined;
  for (const name of known) {
    const candidate = nameKey(name);
    const distance =
      key.length >= 3 && candidate.includes(key)
        ? 0.5
        : editDistance(key.slice(0, 40), candidate.slice(0, 40));
    if (distance < (best?.distance ?? Infinity)) best = { name, distance };
  }
  return best;
}

/** The known name that is spelled most like `wanted`; the first one where several are. */
export const nearestName = (wanted: string, known: readonly string[]): string | undefined =>
  nearest(wanted, known)?.name;

/** The same, where it can be a slip of the fingers: no more than a third of the letters differ. */
export function closeName(wanted: string, known: readonly string[]): string | undefined {
  const near = nearest(wanted, known);
  return near && near.distance <= Math.max(1, nameKey(wanted).length / 3) ? near.name : undefined;
}
