import type { Page } from 'playwright-core';

/** Where the keys of a page go. */
export interface Focus {
  readonly name: string;
  /** What would keep somebody from seeing it; empty where all is well. */
  readonly hidden: string;
  readonly isInPane: boolean;
}

/** What has the focus, and whether one sees so: it is in sight, nothing covers it, and it has a ring. */
export const focusOf = (page: Page): Promise<Focus> =>
  page.evaluate(() => {
    const one = document.activeElement;
    const name = one?.getAttribute('aria-label') ?? one?.textContent?.trim() ?? '';
    const isInPane = one?.closest('#pane') != null;
    if (!one || one === document.body) return { name: '', hidden: 'nothing has it', isInPane };
    const { left, right, top, bottom, width } = one.getBoundingClientRect();
    const at = { x: left + Math.min(width, 20) / 2, y: (top + bottom) / 2 };
    const above = document.elementFromPoint(at.x, at.y);
    const isCovered = !above || !(one.contains(above) || above.contains(one));
    const hasRing = [undefined, '::before', '::after'].some((part) => {
      const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(one, part);
      return (outlineStyle !== 'none' && outlineWidth !== '0px') || boxShadow !== 'none';
    });
    const hidden = [
      ...(right <= 0 || bottom <= 0 || top >= innerHeight || left >= innerWidth
        ? ['out of sight']
        : isCovered
          ? [`covered by ${above?.className ?? 'nothing'}`]
          : []),
      ...(hasRing ? [] : ['no ring']),
    ].join(', ');
    return { name, hidden, isInPane };
  });

/** Throws where the focus is lost, or cannot be seen. */
export async function seeFocus(page: Page, where: string): Promise<Focus> {
  const focus = await focusOf(page);
  if (focus.hidden !== '')
    throw new Error(`${where}: the focus on "${focus.name}": ${focus.hidden}`);
  return focus;
}

/** On with a key to what has that name; in the pane everything on the way has to show its focus. */
export async function keyTo(page: Page, name: string, key = 'Tab', most = 60): Promise<void> {
  const passed: string[] = [];
  while (passed.length < most) {
    await page.keyboard.press(key);
    const focus = await focusOf(page);
    if (focus.isInPane && focus.hidden !== '')
      throw new Error(`On the way to "${name}", "${focus.name}": ${focus.hidden}`);
    if (focus.name === name) return;
    passed.push(focus.name);
  }
  throw new Error(`The ${key} key came past ${passed.join(' | ')}, not to "${name}"`);
}
