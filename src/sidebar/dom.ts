type Listener = (event: Event) => void;

export interface Props {
  readonly [attribute: string]:
    string | number | boolean | undefined | Readonly<Record<string, Listener>>;
  readonly on?: Readonly<Record<string, Listener>>;
}

export type Child = Node | string | undefined | false;

function fill(element: Element, props: Props, children: readonly Child[]): void {
  for (const [name, value] of Object.entries(props)) {
    if (typeof value === 'object') {
      for (const [event, listener] of Object.entries(value)) {
        element.addEventListener(event, listener);
      }
    } else if (value !== undefined && value !== false) {
      element.setAttribute(name, value === true ? '' : String(value));
    }
  }
  for (const child of children) if (child !== undefined && child !== false) element.append(child);
}

/** An element with attributes (`on` holds listeners) and children; false and undefined are left out. */
export function h<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  props?: Props,
  ...children: readonly Child[]
): HTMLElementTagNameMap[K];
export function h(tag: string, props?: Props, ...children: readonly Child[]): HTMLElement;
export function h(tag: string, props: Props = {}, ...children: readonly Child[]): HTMLElement {
  const element = document.createElement(tag);
  fill(element, props, children);
  return element;
}

/** The same for drawings. */
export function svg(tag: string, props: Props = {}, ...children: readonly Child[]): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', tag);
  fill(element, props, children);
  return element;
}

let count = 0;
/** An id that no other element of the page has. */
export const freshId = (word: string): string => {
  count += 1;
  return `gillbed-${word}-${count}`;
};

/** Shows a text where it says something, and hides the element where it does not. */
export function say(element: HTMLElement, text: string | undefined): void {
  element.textContent = text ?? '';
  element.hidden = !text;
}
