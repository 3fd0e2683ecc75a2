import { h } from './dom';

interface ButtonOptions {
  readonly look?: 'primary' | 'subtle';
  readonly label?: string;
  readonly small?: boolean;
  readonly class?: string;
}

/** Takes a button out of use, or back into it. */
export function setUsable(target: HTMLElement, usable: boolean): void {
  target.toggleAttribute('disabled', !usable);
  if (usable) target.removeAttribute('aria-disabled');
  else target.setAttribute('aria-disabled', 'true');
}

/** A button with a word on it; `label` says more to a screen reader. */
export const button = (
  text: string,
  click: () => void,
  { look, label, small, class: className }: ButtonOptions = {},
): HTMLElement =>
  h(
    'fluent-button',
    {
      // The component says so only to browsers that know element internals.
      role: 'button',
      ...(look && { appearance: look }),
      ...(small && { size: 'small' }),
      ...(label && { 'aria-label': label }),
      ...(className && { class: className }),
      on: { click },
    },
    text,
  );
