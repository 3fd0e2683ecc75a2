/** The part of Excel's custom-functions runtime that is used here (requirement set 1.2). */
declare namespace CustomFunctions {
  /** Ties functions of the metadata file to code; ids are compared without case. */
  function associate(id: string, implementation: (...args: never[]) => unknown): void;

  const ErrorCode: {
    readonly invalidValue: '#VALUE!';
    readonly notAvailable: '#N/A';
  };

  /** The message is shown only with `invalidValue` and `notAvailable`. */
  class Error {
    constructor(code: string, message?: string);
    readonly code: string;
    readonly message?: string;
  }
}
