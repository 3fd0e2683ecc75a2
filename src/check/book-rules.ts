/** What the registers of a plan say against each other, read as the farm that they hold. */
import { cellAddress } from '../plan/addresses';
import type { BookSnapshot, Cells } from '../plan/book-snapshot';
import { type BookReading, NoPlanFound, readBook } from '../plan/read-book';
import { doubtsOfFeeding } from '../records/feeding-rules';
import { doubtsOfRows } from '../records/doubts-of-rows';
import { soldTooSoon } from '../records/fish-waits';
import type { RegisterList } from '../records/register-row';
import type { Finding } from './finding';

type Read = Pick<BookReading, 'farm' | 'places' | 'faults'>;

/** The plan of an open workbook; undefined where it holds none, or several. */
export function planIn(book: Cells | BookSnapshot): Read | undefined {
  try {
    return readBook(book);
  } catch (problem) {
    if (problem instanceof NoPlanFound) return undefined;
    throw problem;
  }
}

/** Typed cells that cannot be read: as long as one is wrong, nothing that reads the farm counts its row. */
export const unreadableCells = ({ faults }: Pick<Read, 'faults'>): Finding[] =>
  faults.flatMap(({ sheet, row, column, what, label = '' }) =>
    sheet === undefined || row === undefined || column === undefined
      ? []
      : [
          {
            level: 'watch',
            what: `${label} ${what}`.trim(),
            sheet,
            address: cellAddress(row, column),
            why: 'A cell that cannot be read is left out or misread by what counts it, and nothing that reads the whole farm (Note, the form of Plan, a renewed plan) works until it is put right.',
            remedy: 'Type it as the sentence says, or clear the whole row.',
          },
        ],
  );

/** What was fed against the fish that were there; fish that are sold within the days to wait of another tank. */
export function bookRules({ farm, places }: Pick<Read, 'farm' | 'places'>): Finding[] {
  if (farm === undefined) return [];
  const finding = (
    list: RegisterList,
    at: number,
    field: string,
    rest: Omit<Finding, 'sheet' | 'address'>,
  ): Finding[] => {
    const place = places.get(`${list}[${at}].${field}`);
    if (place === undefined) return [];
    const { sheet, row, column } = place;
    const what = `${sheet}, line ${row + 1}: ${rest.what}.`;
    return [{ ...rest, what, sheet, address: cellAddress(row, column) }];
  };
  const known = new Set(farm.tanks.map(({ name }) => name.trim().toLowerCase()));
  return [
    ...soldTooSoon(farm).flatMap(({ at, says, here }) =>
      here
        ? []
        : finding('fishLog', at, 'tank', {
            level: 'danger',
            what: says,
            why: DAYS_TO_WAIT.why,
            remedy: DAYS_TO_WAIT.remedy,
          }),
    ),
    ...doubtsOfFeeding(farm).flatMap(({ at, says, cannotBe }) => {
      const tank = farm.feedLog[at]?.tank.trim().toLowerCase() ?? '';
      // A tank that is not there is named on the sheet itself.
      if (cannotBe && !known.has(tank)) return [];
      return finding('feedLog', at, cannotBe ? 'tank' : 'given', {
        level: 'watch',
        what: says,
        why: cannotBe
          ? 'Feed that went to no fish is a slip of the tank or the day, or fish that are not in the Fish log: conversion and trace miss them.'
          : 'A point that slips while typing makes the feed ten times too large or too small; feed that is not eaten fouls the water.',
        remedy: cannotBe
          ? 'Correct the row, or write into the Fish log how the fish came there.'
          : 'Correct the figure, or leave it where it was given so.',
      });
    }),
    ...doubtsOfRows(farm).flatMap(({ list, at, field, says, hint }) =>
      finding(list, at, field, {
        level: hint ? 'note' : 'watch',
        what: says,
        why: hint
          ? 'What was written down twice counts twice: fish, feed and income are then more than there were.'
          : 'A row that does not fit to the others is a slip of the name, the day or the number, or something else was not written down: what follows from it is wrong until it is found.',
        remedy: hint
          ? 'Clear one of the two, or leave both where it happened twice.'
          : 'Correct the row, or write down what is missing before it.',
      }),
    ),
    ...farm.treatments.flatMap(({ what }, at) =>
      what.trim().toLowerCase() === 'feed'
        ? finding('treatments', at, 'what', {
            level: 'note',
            what: 'feed stands among the treatments',
            why: 'Feed of the Treatments is words and counts in no figure of conversion.',
            remedy:
              'Type it into the Feed log, which has a column for how much, and clear it here.',
          })
        : [],
    ),
  ];
}

/** Why fish and crops wait after a treatment, and what to do where they did not. */
export const DAYS_TO_WAIT = {
  why: 'What was treated may still hold residues that harm those who eat it. How long it waits, the label, the vet and local law decide; the days that were typed into Treatments are looked at here.',
  remedy:
    'Do not sell it before that day. Where it was sold already, find the buyers with the trace and ask the vet or the authority what is to be done. Where the days to wait were mistyped, correct them in Treatments.',
} as const;
