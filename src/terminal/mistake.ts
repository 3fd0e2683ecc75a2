/** Something that the person at the keyboard can put right; the sentence says how. */
export class Mistake extends Error {}
