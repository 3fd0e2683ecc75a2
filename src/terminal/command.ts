/** A command gets the words after its name and returns the exit status. */
export type Command = (args: readonly string[]) => Promise<number>;
