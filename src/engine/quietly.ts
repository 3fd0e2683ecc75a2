/** The engine tells its timings to the console while it works; nobody who uses Gillbed needs them. */
export function quietly<T>(work: () => T): T {
  const { debug } = console;
  console.debug = () => undefined;
  try {
    return work();
  } finally {
    console.debug = debug;
  }
}
