/** So many are looked through one by one. */
const FEW = 8;

/** A set that is small most often, and then holds no more than a list does. */
export class FewSet<T> implements Iterable<T> {
  private list: T[] | undefined = [];
  private set: Set<T> | undefined;

  get size(): number {
    return this.set?.size ?? this.list?.length ?? 0;
  }

  has(one: T): boolean {
    return this.set?.has(one) ?? this.list?.includes(one) ?? false;
  }

  add(one: T): void {
    if (this.set) {
      this.set.add(one);
    } else if (!this.list?.includes(one)) {
      this.list?.push(one);
      if ((this.list?.length ?? 0) <= FEW) return;
      this.set = new Set(this.list);
      this.list = undefined;
    }
  }

  delete(one: T): void {
    this.set?.delete(one);
    const at = this.list?.indexOf(one) ?? -1;
    if (at >= 0) this.list?.splice(at, 1);
  }

  clear(): void {
    this.list = [];
    this.set = undefined;
  }

  [Symbol.iterator](): Iterator<T> {
    return (this.set ?? this.list ?? [])[Symbol.iterator]();
  }
}
