import { figure, type Finding } from './finding';
import type { FoundTable } from './found-tables';

/** Minutes within which nobody is there who was not beside the tank. */
const MINUTES_LOST = 10;

/** Tanks whose fish are in danger before anybody can come, in tables of how long each lasts. */
export const outageRules = (table: FoundTable): Finding[] =>
  table.roles.has('tank') && table.roles.has('minutes')
    ? table.lines.flatMap((line): Finding[] => {
        const minutes = line.number('minutes');
        if (minutes === undefined || minutes >= MINUTES_LOST) return [];
        return [
          {
            sheet: table.sheet,
            address: line.address('minutes'),
            level: 'watch',
            what: `${line.called}: ${figure(minutes)} minutes of oxygen when pump and air stop.`,
            why: 'Nobody is there so soon: without air that starts by itself the tank is lost in a power cut.',
            remedy:
              'Give it air on a battery or generator that starts by itself, with an alarm that was tried out, or fewer fish.',
          },
        ];
      })
    : [];
