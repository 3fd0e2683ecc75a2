import { readFileSync } from 'node:fs';

interface Quantity {
  readonly value: number | string | readonly number[];
  readonly unit: string;
}

/** One published (or recalled, or worked) figure with its origin. */
export interface PublishedCheck {
  readonly id: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, Quantity>>;
  /** A pair is a printed range. */
  readonly expected: {
    readonly value: number | string | boolean | readonly number[];
    readonly unit: string;
  };
  /** Largest absolute difference, in the unit of what is expected. */
  readonly tolerance: number;
  readonly source: string;
  readonly provenance: 'read' | 'memory' | 'derived' | 'common practice';
}

export const publishedChecks = (file: string): readonly PublishedCheck[] =>
  JSON.parse(
    readFileSync(new URL(`../checks/${file}`, import.meta.url), 'utf8'),
  ) as PublishedCheck[];

/** A number among the inputs. */
export function input(check: PublishedCheck, name: string): number {
  const value = check.inputs[name]?.value;
  if (typeof value !== 'number') throw new Error(`${check.id} has no number called ${name}`);
  return value;
}

/** "SOL-09 daylight hours N: … (read)", the name of a test. */
export const titleOf = (check: PublishedCheck): string =>
  `${check.id} ${check.quantity}: ${check.source} (${check.provenance})`;
