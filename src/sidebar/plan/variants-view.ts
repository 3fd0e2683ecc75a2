import type { Farm } from '../../plan/farm';
import { readFarm } from '../../plan/farm';
import { serialFromIsoText } from '../../core/serial-date';
import { farmOfProposal } from '../../size/farm-of-proposal';
import { chosenVariant, type ReadVariant, readVariants } from '../../size/read-variants';
import { type Variants, variantsOf, variantsOfFarm } from '../../size/variants';
import { VARIANTS, variantsWorkbook } from '../../size/variants-sheet';
import type { Wish } from '../../size/wish';
import { button } from '../button';
import { h, say } from '../dom';
import type { Host } from '../host';
import type { Json } from './draft';

/** Far enough down and across for every sheet of variants. */
const CELLS = 'A1:G600';

/** Lays farms side by side in a sheet of the workbook. */
export async function buildVariants(host: Host, variants: Variants): Promise<void> {
  await host.build(
    variantsWorkbook(variants, 'live'),
    () => undefined,
    new AbortController().signal,
  );
}

/** The variants of the open workbook; none where it has no such sheet. */
export async function variantsInBook(host: Host): Promise<readonly ReadVariant[]> {
  const sheets = await host.readSheets();
  const names = sheets.map(({ name }) => name).filter((name) => name.startsWith(VARIANTS));
  const last = names.at(-1);
  return last === undefined ? [] : readVariants((await host.read(last, CELLS)).values);
}

interface Asked {
  readonly host: Host;
  /** yyyy-mm-dd */
  readonly today: string;
  readonly take: (farm: Json, origin: string) => void;
}

/** Lays a wish, or what a plan wants, beside other ways, and makes the plan of the one that is chosen. */
export function variantsPart(
  { host, today, take }: Asked,
  from: () => Wish | Farm | undefined,
): HTMLElement {
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const status = h('p', { class: 'quiet', role: 'status' });
  const list = h('div', { class: 'actions stacked' });

  const guarded = (doing: string, work: () => Promise<string>): void => {
    say(problem, undefined);
    status.textContent = doing;
    void work()
      .then((done) => {
        status.textContent = done;
      })
      .catch((thrown: unknown) => {
        status.textContent = '';
        say(problem, (thrown as Error).message);
      });
  };

  async function find(): Promise<string> {
    const found = await variantsInBook(host);
    list.replaceChildren(
      ...found.map((variant) =>
        button(
          `Make “${variant.name}” the plan`,
          () =>
            guarded('Working it out …', () => {
              const proposal = chosenVariant(variant, serialFromIsoText(today) as number);
              take(
                farmOfProposal(proposal) as unknown as Json,
                `The variant “${variant.name}”; what nobody said is preset.`,
              );
              return Promise.resolve('');
            }),
          { small: true },
        ),
      ),
    );
    return found.length === 0 ? `This workbook has no sheet ${VARIANTS} yet.` : '';
  }

  async function lay(): Promise<string> {
    const wanted = from();
    if (wanted === undefined) throw new Error('There is nothing to lay side by side yet.');
    const variants = 'file' in wanted ? variantsOfFarm(wanted) : variantsOf(wanted);
    await buildVariants(host, variants);
    await find();
    return `The sheet ${VARIANTS} stands: type over what is to differ; what follows is computed there. Where Gillbed is not installed its formulas show #NAME? once they are computed anew: send a copy without Gillbed, from the page Hand over.`;
  }

  return h(
    'details',
    { class: 'section' },
    h('summary', {}, h('span', { class: 'section-title' }, 'Variants side by side')),
    h(
      'p',
      {},
      'Up to five farms in one sheet: species, amounts, tanks, beds, crops, heat and prices are typed, the rest follows. The first is what stands here, the others are other ways to it.',
    ),
    h(
      'div',
      { class: 'actions' },
      button('Lay them side by side', () => guarded('Laying out the sheet …', lay), {
        small: true,
      }),
      button('Choose one of the sheet', () => guarded('Reading the sheet …', find), {
        small: true,
      }),
    ),
    status,
    problem,
    list,
  );
}

/** The farm of a form as it is now, if it is whole. */
export const wholeFarm = (file: string): Farm | undefined => {
  try {
    return readFarm(JSON.parse(file));
  } catch {
    return undefined;
  }
};
