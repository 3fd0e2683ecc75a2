import { download } from '../download';
import { button } from '../button';
import { h, say } from '../dom';
import type { Draft, Json } from './draft';

const MAX_BYTES = 5_000_000;

/** "Quillwater Farm" becomes "quillwater-farm.json". */
const fileName = (farm: Json | undefined): string => {
  const words = typeof farm === 'string' ? farm.toLowerCase().match(/[\p{L}\d]+/gu) : null;
  return `${words?.join('-') || 'farm'}.json`;
};

/** A farm file's contents; throws a sentence where it is none. */
export function parseFarmFile(text: string): Json {
  let json: Json;
  try {
    json = JSON.parse(text) as Json;
  } catch {
    throw new Error('This is no farm file: it is not JSON. Choose a file that was saved here.');
  }
  if (typeof json !== 'object' || json === null || Array.isArray(json) || !('units' in json)) {
    throw new Error('This is no farm file: it names no units. Choose a file that was saved here.');
  }
  return json;
}

/** Opens farm files, and saves the one at hand where there is one. */
export function farmFiles(
  draft: Draft | undefined,
  opened: (json: Json, from: string) => void,
): HTMLElement {
  const problem = h('p', { class: 'problem', role: 'alert', hidden: true });
  const chooser = h('input', {
    type: 'file',
    accept: '.json,application/json',
    hidden: true,
    'aria-label': 'Farm file',
  });
  chooser.addEventListener('change', () => {
    const [file] = chooser.files ?? [];
    chooser.value = '';
    if (!file) return;
    void (
      file.size > MAX_BYTES
        ? Promise.reject(new Error(`${file.name} is too large for a farm file.`))
        : file.text()
    )
      .then((text) => {
        opened(parseFarmFile(text), file.name);
        say(problem, undefined);
      })
      .catch((thrown: unknown) => say(problem, (thrown as Error).message));
  });
  return h(
    'div',
    { class: 'files' },
    h(
      'div',
      { class: 'actions' },
      button('Open farm file', () => chooser.click(), { small: true }),
      draft &&
        button(
          'Save farm file',
          () => download(fileName(draft.get('name')), draft.file(), 'application/json'),
          { small: true },
        ),
    ),
    chooser,
    problem,
  );
}
