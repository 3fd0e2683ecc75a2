import { counted } from './figure-words';
import { propose, type Proposal } from './proposal';
import type { Choices } from './wish';

/** Two other ways to the same wish. */

export const alternativeIds = ['fewer-tanks', 'gravel', 'rafts'] as const;
export type AlternativeId = (typeof alternativeIds)[number];

export interface Alternative {
  readonly id: AlternativeId;
  readonly title: string;
  /** What is chosen otherwise. */
  readonly choices: Choices;
  readonly proposal: Proposal;
}

const areaOn = ({ beds }: Proposal, kind: string): number =>
  beds.reduce((sum, bed) => sum + (bed.kind === kind ? bed.area : 0), 0);

/** Fewer and larger tanks; gravel in place of rafts, or rafts in place of gravel. What is there already stays. */
export function alternativesTo(proposal: Proposal): readonly Alternative[] {
  const { wish, fish, beds } = proposal;
  const has = (what: 'tanks' | 'beds'): boolean => wish.have.some((group) => group.what === what);
  const made = (id: AlternativeId, title: string, changed: Choices): Alternative => {
    const choices = { ...wish.choices, ...changed };
    // A bed that a crop names of its own yields to the choice for all.
    const market =
      changed.beds === undefined
        ? wish.market
        : wish.market.map((crop) => ({ ...crop, bed: undefined }));
    return { id, title, choices, proposal: propose({ ...wish, choices, market }) };
  };
  const list: Alternative[] = [];
  if (fish !== undefined && fish.tanks.length > 1 && !has('tanks')) {
    const tanks = Math.ceil(fish.tanks.length / 2);
    list.push(
      made('fewer-tanks', `${counted(tanks, 'larger tank')} in place of ${fish.tanks.length}`, {
        tanks,
      }),
    );
  }
  if (beds.length > 0 && !has('beds')) {
    list.push(
      areaOn(proposal, 'raft') >= areaOn(proposal, 'gravel')
        ? made('gravel', 'Gravel beds in place of rafts', { beds: 'gravel' })
        : made('rafts', 'Rafts in place of gravel beds', { beds: 'raft' }),
    );
  }
  return list;
}
