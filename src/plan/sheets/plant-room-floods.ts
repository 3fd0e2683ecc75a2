import type { PlanContext } from '../context';
import {
  all,
  blankWithout,
  call,
  cases,
  type Formula,
  joined,
  roundedUp,
  when,
  written,
} from '../formula-parts';
import { plainCall } from '../live-or-plain';
import { named, nth } from '../names';
import { figureInWords } from '../quantities';
import type { SheetBuilder } from '../sheet-builder';
import { type Field, oneOf } from '../fields';
import type { Flow } from '../sheet-flow';

/** Groups of beds that the order of flooding shows one by one. */
const GROUPS = 12;
const SIPHON = 'siphon';

/** What the figures of flooding ask of each other. */
function floodParts({ gill }: PlanContext) {
  const beds = named('Plant_beds');
  const none = beds.is(0);
  const [depth, voids, bore, drop] = [
    named('Flood_depth'),
    named('Flood_voids'),
    named('Plant_bed_bore'),
    named('Plant_bed_drop'),
  ];
  const siphon = named('Plant_bed_way').is(SIPHON);
  const area = named('Gravel_area').over(beds);
  const ifBeds = (formula: Formula): Formula => when(none, '', formula);
  const passes = named('Plant_bed_least');
  /** L/h that an outlet passes under so many m of water: twice what stood there over the time it takes. */
  const outlet = (head: Formula): Formula =>
    plainCall('FLOOD.VOLUME', 1, head, 1)
      .times(120)
      .over(plainCall('FLOOD.DRAIN', 1, head, bore, undefined, undefined, 1));
  const inflow = named('Plant_bed_flow').over(named('Plant_bed_together'));
  return {
    gill,
    beds,
    none,
    depth,
    voids,
    bore,
    drop,
    siphon,
    area,
    ifBeds,
    passes,
    outlet,
    inflow,
  };
}
type FloodParts = ReturnType<typeof floodParts>;

/** Which beds fill together, and from which flow. */
const bedsAndFlow = ({ beds, ifBeds }: FloodParts): readonly Field[] => [
  {
    name: 'Plant_beds',
    label: 'Gravel beds',
    formula: call('COUNTIF', named('Beds_kind'), 'gravel'),
    quantity: 'number',
    format: 'whole',
    look: 'computed',
  },
  {
    name: 'Plant_bed_together',
    label: 'Of them fill together',
    formula: ifBeds(call('MAX', 1, roundedUp(beds.times(named('Flood_together'))))),
    quantity: 'number',
    format: 'whole',
    look: 'computed',
    remark: 'By the share on the Balance sheet.',
  },
  {
    name: 'Plant_bed_flow',
    label: 'Flow into the beds that fill',
    preset: 'Plant_bed_flow',
    formula: when(named('Plant_turnover').above(0), named('Plant_turnover'), ''),
    look: 'preset',
    remark: 'All pumps, unless you type what really goes there.',
  },
];

/** What lets the water out, and how much it passes. */
const outlets = ({ depth, drop, siphon, ifBeds, outlet }: FloodParts): readonly Field[] => [
  {
    name: 'Plant_bed_way',
    label: 'How a bed drains',
    preset: 'Plant_bed_way',
    across: 2,
    look: 'preset',
    rule: oneOf('Plant_bed_way'),
    note: 'A siphon starts when the bed is full, while the pump runs on. A standpipe with a hole at its foot drains when a timer stops the pump.',
  },
  {
    name: 'Plant_bed_bore',
    label: 'Bore of a bed’s siphon, or of the hole',
    preset: 'Plant_bed_bore',
    look: 'preset',
  },
  {
    name: 'Plant_bed_drop',
    label: 'From the bed’s floor down to where the siphon lets go',
    preset: 'Plant_bed_drop',
    look: 'preset',
  },
  {
    name: 'Plant_bed_turn',
    label: 'Minutes from one flood to the next',
    preset: 'Plant_bed_turn',
    format: 'whole',
    look: 'preset',
    remark: 'Once an hour is usual (common practice).',
  },
  {
    name: 'Plant_bed_full',
    label: 'An outlet passes when the bed is full',
    formula: ifBeds(outlet(when(siphon, depth.plus(drop), depth))),
    quantity: 'flow',
    look: 'computed',
  },
  {
    name: 'Plant_bed_least',
    label: 'A siphon passes when the bed is nearly empty',
    formula: ifBeds(when(siphon, when(drop.above(0), outlet(call('MAX', drop, 0.000001)), 0), '')),
    quantity: 'flow',
    look: 'computed',
    note: 'It must be more than what runs in, or the siphon never stops.',
  },
];

const fillAndDrain = (parts: FloodParts): readonly Field[] => {
  const { gill, depth, voids, bore, drop, siphon, area, ifBeds, passes, inflow } = parts;
  return [
    {
      name: 'Plant_bed_fill',
      label: 'Minutes to fill',
      formula: ifBeds(
        blankWithout(
          [named('Plant_bed_flow')],
          when(
            all(named('Plant_bed_way').isNot(SIPHON), inflow.atMost(named('Plant_bed_full'))),
            'never',
            gill(
              'FLOOD.MINUTES',
              plainCall('FLOOD.VOLUME', area, depth, voids),
              inflow.minus(when(siphon, 0, named('Plant_bed_full'))),
            ),
          ),
        ),
      ),
      quantity: 'number',
      format: 'one',
      look: 'result',
      note: 'With the hole of a standpipe open, counted at what it lets out when the bed is full: it is full a little sooner.',
    },
    {
      name: 'Plant_bed_drain',
      label: 'Minutes to drain',
      formula: ifBeds(
        blankWithout(
          [named('Plant_bed_flow')],
          when(
            siphon,
            when(
              passes.orZero.atMost(inflow),
              'never',
              gill('FLOOD.DRAIN', area, depth, bore, drop, inflow, voids),
            ),
            gill('FLOOD.DRAIN', area, depth, bore, undefined, undefined, voids),
          ),
        ),
      ),
      quantity: 'number',
      format: 'one',
      look: 'result',
    },
  ];
};

/** Rounds of all beds, by the flow and by what the returns take. */
const rounds = ({ beds, depth, voids, siphon, ifBeds }: FloodParts): readonly Field[] => [
  {
    name: 'Plant_bed_groups',
    label: 'Groups that flood one after the other',
    formula: ifBeds(roundedUp(beds.over(named('Plant_bed_together')))),
    quantity: 'number',
    format: 'whole',
    look: 'computed',
  },
  {
    name: 'Plant_bed_least_flow',
    label: 'Least flow that floods all of them in that time',
    formula: ifBeds(
      plainCall('FLOOD.VOLUME', named('Gravel_area'), depth, voids)
        .times(60)
        .over(named('Plant_bed_turn'))
        .plus(when(siphon, 0, named('Plant_bed_full').times(named('Plant_bed_together')))),
    ),
    quantity: 'flow',
    look: 'result',
  },
  {
    name: 'Plant_bed_at_once',
    label: 'Beds that the returns take while they drain at once',
    formula: ifBeds(
      call(
        'INT',
        call(
          'ROUND',
          named('Plant_drain')
            .over(2)
            .times(call('MAX', 1, named('Plant_drain_pipes')))
            .over(named('Plant_bed_full')),
          6,
        ),
      ),
    ),
    quantity: 'number',
    format: 'whole',
    look: 'result',
    note: 'As many returns as the pumps ask for, each at half of what it carries clean, against what an outlet passes at its most.',
  },
];

/** Minutes that a bed takes, and how many groups of beds there are. */
const times = (): { fill: Formula; drain: Formula; groups: Formula } => ({
  fill: named('Plant_bed_fill'),
  drain: named('Plant_bed_drain'),
  groups: named('Plant_bed_groups'),
});

function floodVerdict({ none }: FloodParts, { system }: PlanContext, flow: Flow): void {
  const { fill, drain, groups } = times();
  flow.wide(
    {
      formula: cases(
        [
          [none, 'No gravel bed is flooded.'],
          [fill.isBlank, 'Type the flow into the beds, or bore and length of the pipes above.'],
          [
            fill.is('never'),
            'The hole lets out as much as runs in: the beds never fill. A narrower hole, or more flow.',
          ],
          [
            drain.is('never'),
            'The siphon passes less than what runs in when the bed is nearly empty: it never stops. A wider bore, a longer drop, or less flow to a bed.',
          ],
          [
            fill.times(groups).above(named('Plant_bed_turn')),
            joined(
              'The flow is too small: one round takes ',
              written(fill.times(groups), '0'),
              ' minutes. It takes at least ',
              figureInWords(named('Plant_bed_least_flow'), 'flow', system),
              '.',
            ),
          ],
          [
            fill.plus(drain).above(named('Plant_bed_turn')),
            'A bed is not empty before its next flood: roots drown. A wider bore, or more time.',
          ],
          [
            named('Plant_bed_together').above(named('Plant_bed_at_once')),
            joined(
              'More beds drain at once than the returns take (',
              written(named('Plant_bed_at_once'), '0'),
              '): smaller groups, wider or more returns, or narrower outlets.',
            ),
          ],
        ],
        joined(
          'One round takes ',
          written(fill.times(groups), '0'),
          ' of ',
          written(named('Plant_bed_turn'), '0'),
          ' minutes, and the returns take what drains at once.',
        ),
      ),
      look: 'verdict',
    },
    2,
  );
}

function floodOrder({ beds }: FloodParts, sheet: SheetBuilder, flow: Flow): void {
  const { fill, drain, groups } = times();
  flow.heads([
    'Order of flooding, gravel beds down the Beds sheet',
    'From bed',
    'To bed',
    'Fills from minute',
    'Full at',
    'Empty at',
  ]);
  const works = all(fill.isNumber, drain.isNumber);
  for (let i = 0; i < GROUPS; i++) {
    const row = flow.skip();
    const there = all(works, groups.orZero.above(i));
    const put = (column: number, formula: Formula, format: 'whole' | 'text' = 'whole'): void =>
      sheet.put(row, column, { formula: when(there, formula, ''), look: 'computed', format });
    const bed = (place: Formula): Formula =>
      nth('Beds_name', call('MATCH', place, named('Beds_flooded'), 0));
    sheet.put(row, 0, { formula: when(there, `Group ${i + 1}`, ''), look: 'label' });
    put(1, bed(named('Plant_bed_together').times(i).plus(1)), 'text');
    put(2, bed(call('MIN', beds, named('Plant_bed_together').times(i + 1))), 'text');
    put(3, fill.times(i));
    put(4, fill.times(i + 1));
    put(5, fill.times(i + 1).plus(drain));
  }
  flow.wide({
    formula: when(
      all(works, groups.orZero.above(GROUPS)),
      joined('And so on, ', written(groups, '0'), ' groups in all.'),
      '',
    ),
    look: 'source',
  });
}

/** Gravel beds that fill and drain in turn. */
export function floodFields(sheet: SheetBuilder, ctx: PlanContext, flow: Flow): void {
  const parts = floodParts(ctx);
  flow.heading('Flooded beds');
  flow.fields([...bedsAndFlow(parts), ...outlets(parts), ...fillAndDrain(parts), ...rounds(parts)]);
  floodVerdict(parts, ctx, flow);
  floodOrder(parts, sheet, flow);
}
