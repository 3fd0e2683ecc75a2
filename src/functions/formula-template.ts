import {
  given,
  isWhole,
  type Places,
  type WithFormula,
  type Written,
  writtenWith,
} from './formula-text';

/** Where the texts come from that stand for a formula's names. */
export interface TextPlaces {
  readonly argument: (name: string) => string | undefined;
  readonly step: (name: string) => string | undefined;
  readonly fact: (parameter: string, fact: string) => string | undefined;
}

export interface StepText {
  readonly text: string;
  /** Needs no brackets anywhere. */
  readonly whole: boolean;
}

/** A name that the formula asked for, and what of its text the rest of the formula depends on. */
interface Asked {
  readonly text: (places: TextPlaces) => string | undefined;
  readonly shape: string;
}

interface Template {
  readonly asked: readonly Asked[];
  /** What stands between the places, and the number of each: text, number, text, number, text. */
  readonly pieces: readonly string[];
  readonly whole: boolean;
}

/** No formula holds it: it parts a template from the numbers of its places. */
const MARK = '\0';
const LEFT_OUT = 'left out';

/** Texts of one shape may stand for each other without a change to what is around them. */
function shapeOf(text: string | undefined, written: Written | undefined): string {
  if (!written) return LEFT_OUT;
  if (written.known !== undefined) return `=${text}`;
  return isWhole(written) ? 'whole' : 'open';
}

function newTemplate(card: WithFormula, step: string, places: TextPlaces): Template {
  const asked: Asked[] = [];
  const place = (text: Asked['text']): Written | undefined => {
    const now = text(places);
    const written = now === undefined ? undefined : given(now);
    const number = asked.push({ text, shape: shapeOf(now, written) }) - 1;
    return written?.known === undefined && written
      ? { ...written, text: `${MARK}${number}${MARK}` }
      : written;
  };
  const marked: Places = {
    argument: (name) => place((from) => from.argument(name)),
    step: (name) => place((from) => from.step(name)),
    fact: (parameter, fact) => place((from) => from.fact(parameter, fact)),
  };
  const written = writtenWith(card, marked, step);
  return { asked, pieces: written.text.split(MARK), whole: isWhole(written) };
}

/** The text of a template with these places; undefined where one of them has another shape. */
function filled({ asked, pieces }: Template, places: TextPlaces): string | undefined {
  const texts: (string | undefined)[] = [];
  for (const { text, shape } of asked) {
    const now = text(places);
    if (shapeOf(now, now === undefined ? undefined : given(now)) !== shape) return undefined;
    texts.push(now);
  }
  let result = pieces[0] as string;
  for (let i = 1; i < pieces.length; i += 2) {
    result += `${texts[Number(pieces[i])]}${pieces[i + 1]}`;
  }
  return result;
}

/** Shapes of one step that are kept: a plan has two or three. */
const MAX_TEMPLATES = 8;
const templates = new WeakMap<WithFormula, Map<string, Template[]>>();

/**
 * A step of a card's formula, as `formulaText` writes it, for formulas that are repeated over thousands of
 * rows: it is written once for texts of each shape, and after that they are only put in.
 */
export function repeatedStep(card: WithFormula, step: string, places: TextPlaces): StepText {
  let ofCard = templates.get(card);
  if (!ofCard) templates.set(card, (ofCard = new Map<string, Template[]>()));
  const known = ofCard.get(step) ?? [];
  for (const template of known) {
    const text = filled(template, places);
    if (text !== undefined) return { text, whole: template.whole };
  }
  const template = newTemplate(card, step, places);
  ofCard.set(step, [template, ...known].slice(0, MAX_TEMPLATES));
  return { text: filled(template, places) as string, whole: template.whole };
}
