import { part } from '../hosts/workbench/note-dialog';

/** Whether the work is kept for the next visit. */
let kept = '';
/** What is said while the work is being kept, where that takes a while. */
const KEEPING = 'Keeping your work in this browser …';
let isKeeping = false;
/** What goes on at the moment. */
let doing: string | undefined;
/** How the last thing ended, until the next one. */
let ended: string | undefined;

function show(): void {
  const line = part('kept');
  line.textContent = doing ?? ended ?? (isKeeping ? KEEPING : kept);
  line.toggleAttribute('data-doing', doing !== undefined || isKeeping);
}

/** Says whether the work is kept; it stands above the grid while nothing else goes on. */
export function sayKept(sentence: string): void {
  kept = sentence;
  ended = undefined;
  show();
}

/** Says that the work is being kept, or no longer. */
export function sayKeeping(is: boolean): void {
  isKeeping = is;
  show();
}

/** Says what goes on; with nothing, whether the work is kept shows again. */
export function sayDoing(sentence?: string): void {
  doing = sentence;
  ended = undefined;
  show();
}

/** Says how something ended that was not done. */
export function sayEnded(sentence: string): void {
  ended = sentence;
  show();
}

/** What `sayDoing` was last told. */
export const saidDoing = (): string | undefined => doing;
