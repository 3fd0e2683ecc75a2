import { readFileSync } from 'node:fs';

/** A published value that no card shows by itself: a constant, a property of water, a factor. */
export interface TableCheck {
  readonly id: string;
  readonly quantity: string;
  readonly x: number | string | readonly number[];
  readonly expected: number;
  readonly tolerance: number;
  readonly source: string;
  readonly where: string;
  readonly provenance: 'read' | 'memory';
  /** What else holds up a value that was recalled and not seen. */
  readonly beside?: string;
}

const all = JSON.parse(
  readFileSync(new URL('../../checks/water-tables.json', import.meta.url), 'utf8'),
) as TableCheck[];

/** The checks of one quantity; throws where there are none, so that no test runs over nothing. */
export function tableChecks(quantity: string): readonly TableCheck[] {
  const found = all.filter((check) => check.quantity === quantity);
  if (found.length === 0) throw new Error(`no checks of ${quantity}`);
  const alone = found.filter((check) => check.provenance === 'memory' && !check.beside);
  if (alone.length > 0)
    throw new Error(`from memory and alone: ${alone.map((check) => check.id).join()}`);
  return found;
}

/** "at 25 [read] Plummer & Busenberg 1982: log K", the name of a test. */
export const titleOf = ({ x, provenance, source, where }: TableCheck): string =>
  `at ${String(x)} [${provenance}] ${source}: ${where}`;

/** Whether a computed value lies within the check's tolerance; the last bit of a double does not count. */
export const agrees = ({ expected, tolerance }: TableCheck, value: number): boolean =>
  Math.abs(value - expected) <= tolerance * (1 + 1e-9);
