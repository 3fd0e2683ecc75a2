/** The wire between Microsoft's client library and who plays its host, in Node and in a page alike. */

export interface BridgeMessage {
  readonly id?: number;
  readonly type: number;
  readonly message: unknown;
}

/** What the library looks for to find its host. */
interface Bridge {
  sendMessageToHost(text: string): void;
  onMessageFromHost?: (text: string) => void;
}

declare global {
  var _richApiNativeBridge: Bridge | undefined;
}

export interface Library {
  readonly Excel: typeof Excel;
  readonly Office: typeof Office;
  readonly CustomFunctions: typeof CustomFunctions;
  /** Sets who gets what the library sends; the text is exactly what goes over the wire. */
  onSend(receive: (text: string) => void): void;
  send(message: BridgeMessage): void;
}

export class Wire {
  private receive: (text: string) => void = () => undefined;
  private readonly bridge: Bridge = { sendMessageToHost: (text) => this.receive(text) };

  /** Lays the wire; the library is loaded afterwards. */
  constructor() {
    globalThis._richApiNativeBridge = this.bridge;
  }

  /** The library as its globals are once it was loaded. */
  library(): Library {
    const globals = globalThis as unknown as Pick<
      Library,
      'Excel' | 'Office' | 'CustomFunctions'
    > & {
      readonly OfficeExtension: { readonly CommonUtility: { _doApiNotSupportedCheck: boolean } };
    };
    // The library means to switch it on, but does so for another class.
    globals.OfficeExtension.CommonUtility._doApiNotSupportedCheck = true;
    return {
      Excel: globals.Excel,
      Office: globals.Office,
      CustomFunctions: globals.CustomFunctions,
      onSend: (receiver) => {
        this.receive = receiver;
      },
      send: (message) => this.bridge.onMessageFromHost?.(JSON.stringify(message)),
    };
  }
}
