/** Notes on cells as a newer library has them: the one in the package ends before. */

interface ClientObjectClass {
  new (...args: never[]): object;
}
interface Extension {
  readonly ClientObject: ClientObjectClass;
  readonly BatchApiHelper: {
    createPropertyObject(...args: unknown[]): object;
    createMethodObject(...args: unknown[]): object;
  };
}

/** Adds the collection to the worksheets of the library in this process; the answer takes it away again. */
export function knowNotes(): () => void {
  const { OfficeExtension } = globalThis as unknown as { OfficeExtension: Extension };
  const { ClientObject, BatchApiHelper: helper } = OfficeExtension;
  class Note extends ClientObject {
    get _className(): string {
      return 'Note';
    }
  }
  class NoteCollection extends ClientObject {
    get _className(): string {
      return 'NoteCollection';
    }
    add(address: string, content: string): object {
      const write = 0;
      return helper.createMethodObject(
        Note,
        this,
        'Add',
        write,
        [address, content],
        false,
        true,
        null,
        0,
      );
    }
  }
  const { prototype } = Excel.Worksheet;
  Object.defineProperty(prototype, 'notes', {
    configurable: true,
    get(this: object) {
      return helper.createPropertyObject(NoteCollection, this, 'Notes', true, 4);
    },
  });
  return () => Reflect.deleteProperty(prototype, 'notes');
}
