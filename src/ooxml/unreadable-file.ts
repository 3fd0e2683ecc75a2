/** A file that cannot be worked on, with the sentence that says why. */
export class UnreadableFile extends Error {}
