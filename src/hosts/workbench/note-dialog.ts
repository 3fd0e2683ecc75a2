/** A dialog that says something and, with several answers, asks. */
const part = <T extends HTMLElement>(id: string): T => {
  const element = document.getElementById(id);
  if (!element) throw new Error(`The page has no element #${id}`);
  return element as T;
};

export { part };

/** Shows sentences as a list; resolves with the answer that was pressed, the last one for Escape. */
export function note(
  title: string,
  sentences: readonly string[],
  answers: readonly [string, ...string[]] = ['Close'],
): Promise<string> {
  const dialog = part<HTMLDialogElement>('note');
  part('note-title').textContent = title;
  const list = document.createElement(sentences.length > 1 ? 'ul' : 'p');
  if (sentences.length > 1) {
    for (const sentence of sentences) {
      const item = document.createElement('li');
      item.textContent = sentence;
      list.append(item);
    }
  } else list.textContent = sentences[0] ?? '';
  part('note-text').replaceChildren(list);
  const buttons = dialog.querySelector('form');
  buttons?.replaceChildren(
    ...answers.map((answer) => {
      const button = document.createElement('button');
      button.value = answer;
      button.textContent = answer;
      return button;
    }),
  );
  dialog.returnValue = '';
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener(
      'close',
      () => resolve(dialog.returnValue || (answers.at(-1) as string)),
      { once: true },
    );
  });
}
