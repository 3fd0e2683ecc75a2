/** Chances on a sheet of the open workbook: written, looked for, and taken out again. */
import { readChancesSheets, type ReadChances } from '../../chances/read-chances-sheet';
import { chancesWorkbook, type PlayedChances } from '../../chances/chances-sheet';
import type { Host } from '../host';

/** The name of the sheet that was made. */
export async function writeChances(host: Host, played: PlayedChances): Promise<string> {
  const { sheets } = await host.build(
    chancesWorkbook(played),
    () => undefined,
    new AbortController().signal,
  );
  return sheets[0] ?? '';
}

export const writtenChances = async (host: Host): Promise<ReadChances[]> =>
  readChancesSheets(await host.readSheets());

/** Throws a sentence where somebody typed on the sheet, or it is gone. */
export async function takeChancesOut(host: Host, sheet: string): Promise<void> {
  const found = (await writtenChances(host)).find((chances) => chances.sheet === sheet);
  if (!found) throw new Error(`There is no sheet ${sheet} that was written here any more.`);
  if (!found.untouched) {
    throw new Error(
      `Somebody typed on the sheet ${sheet} since it was written: it stays. Delete it yourself where nothing on it is needed.`,
    );
  }
  await host.removeSheet(sheet);
}
