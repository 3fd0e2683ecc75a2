/** A trace as heads and lines, the same for terminal, pane and paper. */
import { isoText } from '../core/serial-date';
import { registerNames } from './register-row';
import type { Trace } from './trace';
import type { Track, TracedRow } from './track';

export interface TraceLine {
  readonly says: string;
  /** Where the row stands: "Fish log!A12"; the register alone where nobody knows. */
  readonly where?: string;
  readonly warns?: string;
}

export interface TraceSection {
  readonly head: string;
  readonly lines: readonly TraceLine[];
}

export interface TracedLot {
  readonly title: string;
  readonly sections: readonly TraceSection[];
}

/** Address of a row, from its list and place in it. */
export type RowPlace = (row: Pick<TracedRow, 'list' | 'at'>) => string | undefined;

const none = (says: string): TraceLine[] => [{ says }];

/** The lots of a trace, each with its heads; a head without rows says so. */
export function traceInWords({ tracks }: Trace, place: RowPlace = () => undefined): TracedLot[] {
  const lines = (rows: readonly TracedRow[], without: string): TraceLine[] =>
    rows.length === 0
      ? none(without)
      : rows.map((row) => ({
          says: row.says,
          where: place(row) ?? registerNames[row.list],
          ...(row.warns !== undefined && { warns: row.warns }),
        }));
  const whereIn = ({ stays }: Track): TraceLine[] =>
    stays.length === 0
      ? none('Nowhere yet.')
      : stays.map(({ place: name, from, to }) => ({
          says: `${name}: ${isoText(from)} to ${to === undefined ? 'now' : isoText(to)}`,
        }));
  return tracks.map((track) => ({
    title: `${track.name} (${track.of})`,
    sections: [
      {
        head: 'Came from',
        lines: lines(track.cameFrom, 'No row says where it came from.'),
      },
      { head: 'Was in', lines: whereIn(track) },
      ...(track.cleared && track.cleared.length > 0
        ? [
            {
              head: track.kind === 'fish' ? 'Moved, died, counted' : 'Cleared',
              lines: lines(track.cleared, ''),
            },
          ]
        : []),
      {
        head: 'Water in those days',
        lines: lines(track.tests, 'No test of the water is written down for those days.'),
      },
      ...(track.feed
        ? [{ head: 'Feed', lines: lines(track.feed, 'No feed is written down for its tanks.') }]
        : []),
      {
        head: 'Treatments',
        lines: lines(track.treatments, 'No treatment is written down for it.'),
      },
      {
        head: 'Went to',
        lines: [...lines(track.wentTo, 'Nothing of it was sold.'), { says: track.left }],
      },
    ],
  }));
}
