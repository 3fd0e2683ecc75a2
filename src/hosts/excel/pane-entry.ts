import './pane.css';
import { mountSidebar } from '../../sidebar';
import { excelHost } from './host';

/** Office answers at once; where the page stands outside Office it may never answer. */
const PATIENCE_MS = 10_000;

const ready = Promise.race([
  Office.onReady().then(({ host }) => host === Office.HostType.Excel),
  new Promise<boolean>((resolve) => setTimeout(() => resolve(false), PATIENCE_MS)),
]);

void ready.then((inExcel) => {
  const pane = document.getElementById('pane') as HTMLElement;
  if (!inExcel) {
    const sentence = document.createElement('p');
    sentence.className = 'outside';
    sentence.textContent =
      'This page belongs beside a workbook: open Gillbed from Excel’s Home tab.';
    pane.replaceChildren(sentence);
    return;
  }
  mountSidebar(pane, excelHost());
});
