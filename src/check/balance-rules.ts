import { EVEN_BAND } from '../core/feed-area';
import { figure, type Finding } from './finding';
import { labelled, type Labelled } from './labels';
import type { OpenSheet } from './open-sheet';

function feedAgainstArea(sheets: readonly OpenSheet[]): Finding[] {
  const given = labelled(sheets, /^feed given\b/i);
  const wanted = labelled(sheets, /^feed (the beds call for|called for|wanted)\b/i);
  if (!given || !wanted || given.value <= 0 || wanted.value <= 0) return [];
  // The plan's own bounds where it states them, by kind of bed; else what holds for beds of any kind.
  const least =
    labelled(sheets, /^such beds ran well from\b/i)?.value ?? wanted.value * EVEN_BAND[0];
  const most =
    labelled(sheets, /^such beds ran well up to\b/i)?.value ?? wanted.value * EVEN_BAND[1];
  if (given.value >= least && given.value <= most) return [];
  const more = given.value > most;
  const percent = Math.abs(Math.round((given.value / (more ? most : least) - 1) * 100));
  return [
    {
      level: 'watch',
      what: `Feed given is ${percent} % ${more ? 'above the most' : 'below the least'} that such beds ran well with.`,
      sheet: given.sheet,
      address: given.address,
      why: more
        ? 'What the plants do not take up gathers as nitrate and sludge.'
        : 'The plants will be short of nutrients, iron and potassium first.',
      remedy: more
        ? `Plant more area (about ${percent} % more), sell fish sooner, or feed less.`
        : 'Stock more fish, grow less area, or choose crops that want less.',
    },
  ];
}

/** Beds, pipes and the water over the pump together, where a sheet says what they ask for. */
function sumpAgainstAll(sump: Labelled, sheets: readonly OpenSheet[]): Finding[] {
  const needed = labelled(sheets, /^water that the sump must hold\b/i);
  if (!needed || needed.value <= sump.value || needed.unit !== sump.unit) return [];
  const volume = (value: number): string => `${figure(value)} ${sump.unit}`.trim();
  return [
    {
      level: 'watch',
      what: `Beds, pipes and pump ask the sump for ${volume(needed.value)}; it holds ${volume(sump.value)}.`,
      sheet: sump.sheet,
      address: sump.address,
      why: 'When the power fails the pipes run empty into it: then it overflows, or the pump runs dry afterwards.',
      remedy: `Give the sump ${volume(needed.value - sump.value)} more, or let the beds flood in turn.`,
    },
  ];
}

function sumpAgainstBeds(sheets: readonly OpenSheet[]): Finding[] {
  const sump = labelled(sheets, /^sump\b(?!.*\b(short|spare|free)\b)/i);
  const flood = labelled(
    sheets,
    /^(water )?(that )?(the )?(flooded )?beds (can )?hold|^flood volume/i,
  );
  if (!sump || !flood) return [];
  if (flood.value <= sump.value) return sumpAgainstAll(sump, sheets);
  const volume = (value: number): string => `${figure(value)} ${sump.unit}`.trim();
  return [
    {
      level: 'danger',
      what: `The beds take ${volume(flood.value)} when flooded together; the sump holds ${volume(sump.value)}.`,
      sheet: sump.sheet,
      address: sump.address,
      why: 'The pump runs dry when they fill together, and the sump overflows when they drain together.',
      remedy: `Let the beds flood in turn, or give the sump ${volume(flood.value - sump.value)} more.`,
    },
  ];
}

/** Feed against area, and sump against what the beds hold, by the labels that stand beside the figures. */
export const balanceRules = (sheets: readonly OpenSheet[]): Finding[] => [
  ...feedAgainstArea(sheets),
  ...sumpAgainstBeds(sheets),
];
