import './pane.css';
import { mountSidebar } from '../sidebar';
import { excelHost } from '../hosts/excel/excel-host';

/** Office answers at once; where the page stands outside Office it may never answer. */
const LOAD_TIMEOUT_MS = 10_000;

const OFFLINE =
  'Office’s own script could not be loaded: Gillbed needs a network when Excel starts it. Close this pane and open it again once there is one.';
const NOT_IN_EXCEL = 'This page belongs beside a workbook: open Gillbed from Excel’s Home tab.';

/** Why there is nothing to show; undefined where the page stands in Excel. */
const obstacle: Promise<string | undefined> =
  typeof Office === 'undefined'
    ? Promise.resolve(OFFLINE)
    : Promise.race([
        Office.onReady().then(({ host }) =>
          host === Office.HostType.Excel ? undefined : NOT_IN_EXCEL,
        ),
        new Promise<string>((resolve) => setTimeout(() => resolve(NOT_IN_EXCEL), LOAD_TIMEOUT_MS)),
      ]);

void obstacle.then((why) => {
  const pane = document.getElementById('pane') as HTMLElement;
  if (why !== undefined) {
    const sentence = document.createElement('p');
    sentence.className = 'outside';
    sentence.textContent = why;
    pane.replaceChildren(sentence);
    return;
  }
  mountSidebar(pane, excelHost());
});
