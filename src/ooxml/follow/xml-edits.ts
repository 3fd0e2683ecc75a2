import { atOnce, partly, type Steps } from '../../plan/in-steps';
import type { Package } from '../package';
import type { Splice, XmlElement } from '../read-xml';
import { escapeAttribute, escapeText } from '../write-xml';

const patterns = new Map<string, RegExp>();

/** Finds an attribute in an opening tag. */
function attributeNamed(name: string): RegExp {
  let known = patterns.get(name);
  if (!known) {
    known = new RegExp(`\\s${name}\\s*=\\s*(?:"[^"]*"|'[^']*')`);
    patterns.set(name, known);
  }
  return known;
}

/** So many elements are written in one step. */
const ELEMENTS = 2_000;

/** Changes to elements of one part, gathered and then put into its text together. */
export class XmlEdits {
  private readonly attributes = new Map<XmlElement, Map<string, string | undefined>>();
  private readonly texts = new Map<XmlElement, string>();
  private readonly removed = new Set<XmlElement>();
  private readonly replaced = new Map<XmlElement, string>();
  private readonly inserted: { readonly at: number; readonly xml: string }[] = [];
  private readonly xml: string;
  readonly root: XmlElement;

  constructor(
    private readonly file: Package,
    readonly part: string,
  ) {
    this.xml = file.text(part);
    this.root = file.root(part);
  }

  /** Gives an element an attribute, or takes it away. */
  set(element: XmlElement, name: string, value: string | number | undefined): void {
    const known = this.attributes.get(element) ?? new Map<string, string | undefined>();
    this.attributes.set(element, known.set(name, value === undefined ? undefined : String(value)));
  }

  setText(element: XmlElement, text: string): void {
    this.texts.set(element, text);
  }

  /** Puts other XML in the place of an element. */
  replace(element: XmlElement, xml: string): void {
    this.replaced.set(element, xml);
  }

  remove(element: XmlElement): void {
    this.removed.add(element);
  }

  isRemoved(element: XmlElement): boolean {
    return this.removed.has(element);
  }

  /** Takes children out, and their list with the last of them. */
  removeFrom(list: XmlElement, gone: readonly XmlElement[]): void {
    for (const element of gone) this.remove(element);
    if (gone.length === 0) return;
    const left = list.children.filter((child) => !this.removed.has(child)).length;
    if (left === 0) this.remove(list);
    else if (list.attributes['count'] !== undefined) this.set(list, 'count', left);
  }

  insertBefore(element: XmlElement, xml: string): void {
    this.inserted.push({ at: element.start, xml });
  }

  insertAfter(element: XmlElement, xml: string): void {
    this.inserted.push({ at: element.end, xml });
  }

  private openTag(element: XmlElement): string {
    let open = this.xml.slice(element.start, element.openEnd);
    for (const [name, value] of this.attributes.get(element) ?? []) {
      const there = attributeNamed(name);
      const text = value === undefined ? '' : ` ${name}="${escapeAttribute(value)}"`;
      open = there.test(open)
        ? open.replace(there, () => text)
        : open.replace(/\s*(\/?>)$/, (_, end: string) => `${text}${end}`);
    }
    return open;
  }

  /** Puts everything in. */
  write(): void {
    atOnce(this.writing());
  }

  /** As `write`, in steps. */
  *writing(): Steps<void> {
    const ordered = [...this.removed, ...this.replaced.keys()].sort(
      (a, b) => a.start - b.start || b.end - a.end,
    );
    const outer: XmlElement[] = [];
    for (const element of ordered)
      if (element.start >= (outer.at(-1)?.end ?? 0)) outer.push(element);
    const isLeft = ({ start }: XmlElement): boolean => {
      let [low, high] = [0, outer.length];
      while (low < high) {
        const middle = (low + high) >> 1;
        if ((outer[middle] as XmlElement).start <= start) low = middle + 1;
        else high = middle;
      }
      return start >= (outer[low - 1]?.end ?? 0);
    };
    const splices: Splice[] = outer.map((element) => ({
      start: element.start,
      end: element.end,
      text: this.removed.has(element) ? '' : (this.replaced.get(element) ?? ''),
    }));
    let looked = 0;
    for (const element of this.attributes.keys()) {
      if (++looked % ELEMENTS === 0) yield (0.4 * looked) / this.attributes.size;
      if (!isLeft(element)) continue;
      splices.push({
        start: element.start,
        end: element.openEnd,
        text: this.openTag(element),
      });
    }
    for (const [element, text] of this.texts) {
      if (++looked % ELEMENTS === 0) yield 0.5;
      if (!isLeft(element) || element.selfClosing) continue;
      const end = this.xml.lastIndexOf('</', element.end - 1);
      splices.push({ start: element.openEnd, end, text: escapeText(text) });
    }
    for (const { at, xml } of this.inserted) splices.push({ start: at, end: at, text: xml });
    yield* partly(this.file.editing(this.part, splices), 0.6, 1);
  }
}
