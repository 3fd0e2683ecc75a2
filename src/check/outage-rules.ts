import { MINUTES_TO_ACT, USUAL_OXYGEN } from '../core/fish-oxygen';
import { figure, type Finding } from './finding';
import type { FoundTable } from './found-tables';
import { labelled } from './labels';
import type { OpenSheet } from './open-sheet';
import { mostOxygenNeeded } from './water-limits-found';

const when = { minutes: '', fullMinutes: ' in its fullest week' } as const;

/** Tanks whose stones bring less air than the fish need at the peak. */
export const airRules = (table: FoundTable): Finding[] =>
  table.roles.has('tank') && table.roles.has('airNeeded')
    ? table.lines.flatMap((line): Finding[] => {
        const [has, needs] = [line.number('blownAir'), line.number('airNeeded')];
        if (has === undefined || needs === undefined || has >= needs) return [];
        return [
          {
            sheet: table.sheet,
            address: line.address('blownAir'),
            level: 'watch',
            what: `${line.called}: ${figure(has)} m³/h of air, and its fish need ${figure(needs)} at the peak after feeding.`,
            why: 'Oxygen then falls below what the air is sized to hold, every day.',
            remedy: 'More stones and air, the feed in more meals, or fewer fish.',
          },
        ];
      })
    : [];

/** Tanks whose fish are in danger before anybody can come, in tables of how long each lasts. */
export const outageRules = (table: FoundTable): Finding[] =>
  (['minutes', 'fullMinutes'] as const).flatMap((role) =>
    table.roles.has('tank') && table.roles.has(role)
      ? table.lines.flatMap((line): Finding[] => {
          const minutes = line.number(role);
          if (minutes === undefined || minutes >= MINUTES_TO_ACT) return [];
          // What is so now is not said once more of later.
          const now = role === 'fullMinutes' ? line.number('minutes') : undefined;
          if (now !== undefined && now < MINUTES_TO_ACT) return [];
          return [
            {
              sheet: table.sheet,
              address: line.address(role),
              level: 'watch',
              what: `${line.called}: ${figure(minutes)} minutes of oxygen${when[role]} when pump and air stop.`,
              why: 'Nobody who is not there comes so soon: without air that starts by itself the tank is lost in a power cut.',
              remedy:
                'Give it air on a battery or generator that starts by itself, with an alarm that was tried out, or fewer fish.',
            },
          ];
        })
      : [],
  );

/** Air that is sized to hold less oxygen than a species of the tanks needs. */
export function airLevelRules(
  sheets: readonly OpenSheet[],
  tables: readonly FoundTable[],
): Finding[] {
  const level = labelled(sheets, /^oxygen in the tanks when something stops\b/i);
  const needed = mostOxygenNeeded(tables);
  if (level === undefined || needed === undefined || level.value >= needed.least) return [];
  return [
    {
      sheet: level.sheet,
      address: level.address,
      level: 'watch',
      what: `The air is sized to hold ${figure(level.value)} mg/L of oxygen; ${needed.whose} need ${figure(needed.least)} at least.`,
      why: 'Air and blower are then too small for them, and the minutes of a power cut begin where they are short of oxygen already.',
      remedy: `Type ${figure(Math.max(USUAL_OXYGEN, needed.least))} mg/L or more.`,
    },
  ];
}
