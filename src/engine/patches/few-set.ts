/** So many are looked through one by one. */
const FEW = 8;

const NONE: readonly never[] = [];

/** A set that is small most often: of two it holds no more than the two. */
export class FewSet<T extends object> implements Iterable<T> {
  private one: T | undefined = undefined;
  private two: T | undefined = undefined;
  /** All of them where there are more. */
  private all: readonly T[] | Set<T> | undefined = undefined;

  get size(): number {
    if (this.all instanceof Set) return this.all.size;
    return this.all?.length ?? (this.one ? 1 : 0) + (this.two ? 1 : 0);
  }

  has(item: T): boolean {
    if (this.all instanceof Set) return this.all.has(item);
    return this.all?.includes(item) ?? (this.one === item || this.two === item);
  }

  add(item: T): void {
    if (this.all instanceof Set) this.all.add(item);
    else if (this.has(item)) return;
    else if (!this.all && !this.one) this.one = item;
    else if (!this.all && !this.two) this.two = item;
    else {
      // A list that is made anew is no longer than it has to be; one that grows takes room for many more.
      const all = this.list().concat(item);
      this.clear();
      this.all = all.length > FEW ? new Set(all) : all;
    }
  }

  delete(item: T): void {
    if (this.all instanceof Set) this.all.delete(item);
    else if (this.all) this.all = this.all.filter((other) => other !== item);
    else if (this.one === item) this.one = undefined;
    else if (this.two === item) this.two = undefined;
  }

  clear(): void {
    this.one = undefined;
    this.two = undefined;
    this.all = undefined;
  }

  private list(): readonly T[] {
    if (this.all) return [...this.all];
    if (this.one && this.two) return [this.one, this.two];
    const only = this.one ?? this.two;
    return only ? [only] : NONE;
  }

  [Symbol.iterator](): Iterator<T> {
    return (this.all ?? this.list())[Symbol.iterator]();
  }
}
