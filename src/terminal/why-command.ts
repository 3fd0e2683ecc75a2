import type { Card } from '../functions/card';
import { NAMESPACE } from '../functions/card-list';
import { openTraced } from '../ooxml/open-book';
import { UnreadableFile } from '../ooxml/unreadable-file';
import {
  askedOf,
  moversAt,
  NoSuchCell,
  placeNamed,
  type Recalculator,
  why as whyOf,
  whyAndMovers,
  whySections,
} from '../why/why';
import { moversSection, type Section } from '../why/why-lines';
import type { Command } from './command';
import { readArguments } from './command-arguments';
import { Mistake } from './mistake';
import { readWorkbookFile } from './workbook-file';

const isCard = (value: unknown): value is Card =>
  typeof value === 'object' && value !== null && 'examples' in value && 'sources' in value;

/** Steps that are shown unless all are asked for. */
const STEPS = 8;

/** Says why a number stands in a cell: what it is made of, down to what was typed, and what would change it. */
export const why: Command = async (args) => {
  const { values, positionals } = readArguments(args, {
    all: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  });
  const [path, cell, ...more] = positionals;
  if (path === undefined || cell === undefined || more.length > 0)
    throw new Mistake("why takes a workbook and a cell or name: why BOOK.xlsx 'Balance!B8'");
  const bytes = await readWorkbookFile(path);
  try {
    const asked = askedOf(openTraced(bytes));
    const place = placeNamed(cell, asked.cells);
    const computed = async (): Promise<Recalculator> => {
      const { Recalculation } = await import('../engine/recalculation');
      return (...what) => new Recalculation(...what);
    };
    if (values.json) {
      const answer = whyAndMovers(place, asked, await computed());
      const spoken = (_: string, value: unknown): unknown =>
        isCard(value) ? `${NAMESPACE}.${value.id}` : value;
      console.log(JSON.stringify(answer, spoken, 2));
      return 0;
    }
    // The engine takes longer to load than the answer, which mostly follows from what the cells show.
    const engine = { isAsked: false };
    let answer = whyOf(place, asked, () => {
      engine.isAsked = true;
      throw new Error('not loaded');
    });
    if (engine.isAsked) answer = whyOf(place, asked, await computed());
    console.log(answer.title);
    const print = ({ head, lines }: Section): void =>
      console.log(['', head, ...lines.map((line) => `  ${line}`)].join('\n'));
    for (const section of whySections(answer, values.all ? undefined : STEPS)) print(section);
    // The chain stands there while what moves it is still being computed.
    if (answer.steps.length > 0) {
      const { movers, notes } = moversAt(place, asked, await computed());
      for (const note of notes.filter((said) => !answer.notes.includes(said)))
        print({ head: note, lines: [] });
      if (movers) print(moversSection(movers));
    }
    if (!values.all && answer.steps.length > STEPS) console.log('\n--all shows every step.');
    return 0;
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw new Mistake(`${path}: ${problem.message}`);
    if (problem instanceof NoSuchCell) throw new Mistake(problem.message);
    throw problem;
  }
};
