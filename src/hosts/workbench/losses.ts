/** What saving or opening cannot carry over, gathered by kind with the places where it stood. */
export class Losses {
  private readonly places = new Map<string, Set<string>>();

  /** `sentence` says what is lost; `place` is a cell or range with its sheet, where there is one. */
  add(sentence: string, place?: string): void {
    let known = this.places.get(sentence);
    if (!known) this.places.set(sentence, (known = new Set()));
    if (place !== undefined) known.add(place);
  }

  /** Takes in what another one gathered. */
  addAll(other: Losses): void {
    for (const [sentence, places] of other.places) {
      this.add(sentence);
      for (const place of places) this.add(sentence, place);
    }
  }

  /** A sentence for each kind, with its first places. */
  sentences(): readonly string[] {
    return [...this.places].map(([sentence, places]) => {
      if (places.size === 0) return sentence;
      const more = places.size > 4 ? ` and ${places.size - 4} more places` : '';
      return `${sentence} (${[...places].slice(0, 4).join(', ')}${more})`;
    });
  }
}
