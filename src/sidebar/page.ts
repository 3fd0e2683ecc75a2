import type { Host } from './host';

/** One page of the sidebar. */
export interface Page {
  readonly id: string;
  readonly title: string;
  /** Fills the page's panel once; called when the page is first shown. */
  readonly render: (panel: HTMLElement, host: Host) => void;
}
