/** A page in the background draws nothing, and is not waited for longer. */
const MAX_WAIT_HIDDEN_MS = 300;
/** One in sight draws, however much else the machine does. */
const MAX_WAIT_MS = 5_000;

/** Once the page has drawn what stands on it now; or at once, where `now` is called. */
export function drawnOr(): { readonly drawn: Promise<void>; readonly now: () => void } {
  let now = (): void => undefined;
  const drawn = new Promise<void>((resolve) => {
    const isHidden = typeof document === 'object' && document.visibilityState === 'hidden';
    const late = setTimeout(resolve, isHidden ? MAX_WAIT_HIDDEN_MS : MAX_WAIT_MS);
    now = () => {
      clearTimeout(late);
      resolve();
    };
    // What a frame shows is handed over after all that asked for it; a task of its own comes behind that.
    requestAnimationFrame(() => setTimeout(now));
  });
  return { drawn, now: () => now() };
}

/** Once the page has drawn what stands on it now. */
export const drawn = (): Promise<void> => drawnOr().drawn;

/** Once the page has drawn, and done what it had to do after that. */
export async function atRest(): Promise<void> {
  await drawn();
  if (typeof requestIdleCallback !== 'function') return;
  await new Promise<void>((resolve) => {
    requestIdleCallback(() => resolve(), { timeout: MAX_WAIT_HIDDEN_MS });
  });
}
