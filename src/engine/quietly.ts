/** The engine tells its timings to the console while it works; nobody who uses Gillbed needs them. */
export function quietly<T>(work: () => T): T {
  const { debug, error } = console;
  console.debug = () => undefined;
  // What a formula meets becomes its error value, and the library prints it besides.
  console.error = () => undefined;
  try {
    return work();
  } finally {
    Object.assign(console, { debug, error });
  }
}
