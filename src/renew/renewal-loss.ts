/** What a renewal cannot keep, in a sentence, with its place. */
export interface Loss {
  readonly kind: 'typed over' | 'points nowhere' | 'not carried';
  readonly where: string;
  readonly says: string;
}
