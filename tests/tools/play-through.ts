/** A year of the demo farm through its registers, its plan renewed on the way. */
import { isoText } from '../../src/core/serial-date';
import { computedValues } from '../../src/engine/engine';
import { openTraced } from '../../src/ooxml/open-book';
import { writeXlsx } from '../../src/ooxml/write-xlsx';
import { BookCells } from '../../src/plan/book-snapshot';
import { demoFarm } from '../../src/plan/demo-farm';
import { readFarm } from '../../src/plan/farm';
import { planWorkbook } from '../../src/plan/plan';
import { readBook } from '../../src/plan/read-book';
import { renew } from '../../src/renew/renew';
import { otherThanLedger } from './played-checks';
import { type Balance, cleared, PlayedYear } from './year-of-registers';

/** The plan is renewed after so many weeks, with more tanks and beds where it says so. */
export interface RenewalDay {
  readonly week: number;
  readonly tanks?: number;
  readonly beds?: number;
  /** Nothing is computed then and set beside the ledger. */
  readonly unseen?: true;
}

export interface Played {
  readonly bytes: Uint8Array;
  readonly balance: Balance;
  /** Where the workbook said otherwise than the ledger, after each renewal. */
  readonly faults: readonly string[];
  readonly rows: Readonly<Record<string, number>>;
}

export function playThrough(renewals: readonly RenewalDay[]): Played {
  const farm = readFarm(demoFarm);
  let bytes = cleared(
    writeXlsx(planWorkbook(farm, { formulas: 'plain' }), () => 0),
    farm.asOf,
  );
  let { tanks, beds } = farm;
  const played = new PlayedYear(farm, farm.asOf);
  played.begin();
  const faults: string[] = [];
  let week = 0;
  for (const { week: until, unseen, ...more } of renewals) {
    while (week < until) {
      week += 1;
      played.week(
        week,
        tanks.map(({ name }) => name),
        beds,
      );
    }
    const { bytes: renewed, losses } = renew(played.typeInto(bytes), {
      changes: { day: isoText(played.date), ...more },
      ...(!unseen && { values: computedValues }),
    });
    bytes = renewed;
    faults.push(...losses.map(({ where, says }) => `week ${week}, lost: ${where} ${says}`));
    if (!unseen)
      faults.push(
        ...otherThanLedger(new BookCells(openTraced(bytes)), played.balance()).map(
          (says) => `week ${week}: ${says}`,
        ),
      );
    const now = readBook(openTraced(bytes)).farm;
    if (now) ({ tanks, beds } = now);
  }
  const { fishLog = [], plantings = [], harvests = [] } = readBook(openTraced(bytes)).farm ?? {};
  return {
    bytes,
    balance: played.balance(),
    faults,
    rows: { fishLog: fishLog.length, plantings: plantings.length, harvests: harvests.length },
  };
}
