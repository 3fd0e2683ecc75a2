// Hides what does not hold every word that is being typed.
const box = document.querySelector<HTMLInputElement>('#search');
const none = document.querySelector<HTMLElement>('#none');
const items = [...document.querySelectorAll<HTMLElement>('[data-words]')];

box?.addEventListener('input', () => {
  const wanted = box.value.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const item of items) {
    const fits = wanted.every((word) => item.dataset['words']?.includes(word));
    item.hidden = !fits;
    if (fits) shown += 1;
  }
  for (const section of document.querySelectorAll<HTMLElement>('section')) {
    section.hidden = section.querySelector('[data-words]:not([hidden])') === null;
  }
  if (none) none.hidden = shown > 0;
});

export {};
