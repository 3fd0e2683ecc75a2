/** Long work in a thread of its own, which is ended to cancel it. */

/** The grower ended the work. */
export class Cancelled extends Error {}

export interface InThread<R> {
  /** Rejects with a sentence where there is no answer, and with `Cancelled` where it was ended. */
  readonly answer: Promise<R>;
  /** Ends the thread, whatever it is doing. */
  cancel(): void;
}

interface Ends<R> {
  readonly done: (answer: R) => void;
  readonly fail: (fault: Error) => void;
}

interface Sentences {
  /** Said where the work was ended. */
  readonly ended: string;
  /** Begins what is said where the thread's script did not come. */
  readonly notLoaded: string;
}

/** `heard` gets what the thread says, until it ends the work. */
export function inThread<T, R>(
  worker: Worker,
  asked: unknown,
  heard: (told: T, ends: Ends<R>) => void,
  { ended, notLoaded }: Sentences,
): InThread<R> {
  let cancel = (): void => undefined;
  const answer = new Promise<R>((done, fail) => {
    cancel = () => fail(new Cancelled(ended));
    worker.addEventListener('message', ({ data }: MessageEvent<T>) => heard(data, { done, fail }));
    worker.addEventListener('error', ({ message }) =>
      fail(
        new Error(
          `${notLoaded}${message ? ` (${message})` : ''}: it is fetched when it is asked for, and needs the place that Gillbed came from.`,
        ),
      ),
    );
    worker.postMessage(asked);
  }).finally(() => worker.terminate());
  return { answer, cancel };
}
