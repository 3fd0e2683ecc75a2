/** What saving or opening cannot carry over, gathered by kind with the places where it stood. */
export class Losses {
  private readonly places = new Map<string, string[]>();

  /** `sentence` says what is lost; `place` is a cell or range with its sheet, where there is one. */
  add(sentence: string, place?: string): void {
    const known = this.places.get(sentence) ?? [];
    if (place !== undefined && !known.includes(place)) known.push(place);
    this.places.set(sentence, known);
  }

  /** A sentence for each kind, with its first places. */
  sentences(): readonly string[] {
    return [...this.places].map(([sentence, places]) => {
      if (places.length === 0) return sentence;
      const more = places.length > 4 ? ` and ${places.length - 4} more places` : '';
      return `${sentence} (${places.slice(0, 4).join(', ')}${more})`;
    });
  }
}
