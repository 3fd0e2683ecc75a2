/**
 * A plan goes to Excel in as many requests as it needs. Excel on the web refuses those of more than 5 MB; these
 * stay far below it, so that the pane can tell how far it is and be stopped in between.
 */

/** Queues its work piece by piece and says of each what it weighs: about its bytes in the request. */
export type Pieces = Generator<number, void>;

/** What a call takes in a request, with the way to its object; a test holds it against the library's own bytes. */
const CALL_BYTES = 200;
/** A request that weighs so much is sent. */
const FULL = 1_000_000;

const encoder = new TextEncoder();

/** Bytes of so many calls and of what they carry. */
export const weight = (calls: number, carried?: unknown): number =>
  calls * CALL_BYTES + (carried === undefined ? 0 : encoder.encode(JSON.stringify(carried)).length);

/** Carries out pieces of work, and sends them whenever enough has come together. */
export class Requests {
  private queued = 0;

  /** `before` is called before each request is sent, and may end it all by throwing. */
  constructor(
    private readonly context: Excel.RequestContext,
    private readonly before: () => Promise<void>,
  ) {}

  async carryOut(pieces: Pieces): Promise<void> {
    this.suspendDrawing();
    for (const bytes of pieces) {
      this.queued += bytes;
      if (this.queued >= FULL) {
        await this.send();
        this.suspendDrawing();
      }
    }
  }

  /** Sends what is queued. */
  async send(): Promise<void> {
    await this.before();
    await this.context.sync();
    this.queued = 0;
  }

  private suspendDrawing(): void {
    if (this.queued > 0) return;
    this.context.workbook.application.suspendScreenUpdatingUntilNextSync();
    this.queued += weight(2);
  }
}
