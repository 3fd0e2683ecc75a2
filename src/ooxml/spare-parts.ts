import type { Package } from './package';
import { childNamed, childrenNamed } from './read-xml';

/** The stored order of calculation names cells that hold no formula any more; spreadsheets make it anew. */
export function removeCalculationOrder(file: Package): void {
  const main = file.related('', 'officeDocument')?.target ?? '';
  const order = file.related(main, 'calcChain');
  if (order) file.remove(main, order);
}

/** The reference to Gillbed's own pane is of no use in a copy that needs no Gillbed. Others' panes stay. */
export function removeAddInParts(file: Package): void {
  const link = file.related('', 'webextensiontaskpanes');
  if (!link || !file.has(link.target)) return;
  const extensions = file.relationships(link.target);
  const ours = extensions.filter(({ target }) =>
    file.readableText(target)?.includes('_xldudf_GILL_'),
  );
  for (const extension of ours) file.remove(link.target, extension);
  if (ours.length === extensions.length) {
    if (ours.length > 0) file.remove('', link);
    return;
  }
  const gone = childrenNamed(file.root(link.target), 'taskpane').filter((pane) => {
    const { attributes = {} } = childNamed(pane, 'webextensionref') ?? {};
    const id = Object.entries(attributes).find(([name]) => name.endsWith(':id'))?.[1];
    return ours.some((relation) => relation.id === id);
  });
  file.edit(
    link.target,
    gone.map(({ start, end }) => ({ start, end, text: '' })),
  );
}

/** New formulas come without stored values: the workbook is computed when it is opened. */
export function calculateOnOpening(file: Package, workbook: string): void {
  const root = file.root(workbook);
  const settings = childNamed(root, 'calcPr');
  if (settings) {
    const open = file.text(workbook).slice(settings.start, settings.openEnd);
    const text = /fullCalcOnLoad="/.test(open)
      ? open.replace(/fullCalcOnLoad="[^"]*"/, 'fullCalcOnLoad="1"')
      : open.replace(/(\/?>)$/, ' fullCalcOnLoad="1"$1');
    file.edit(workbook, [{ start: settings.start, end: settings.openEnd, text }]);
    return;
  }
  const before = ['definedNames', 'externalReferences', 'functionGroups', 'sheets']
    .map((name) => childNamed(root, name))
    .find(Boolean);
  if (!before) return;
  const text = `<${root.prefix}calcPr fullCalcOnLoad="1"/>`;
  file.edit(workbook, [{ start: before.end, end: before.end, text }]);
}
