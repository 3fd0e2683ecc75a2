/** Carries out the requests that Excel's own library sends, over a workbook in memory. */
import { type Desk, type HandedOver, members, type Served } from './excel-members';
import { Refusal, WorkbookInMemory } from './excel-workbook';

interface ArgumentInfo {
  readonly Arguments?: readonly unknown[];
  readonly ReferencedObjectPathIds?: readonly unknown[];
}
interface ObjectPath {
  readonly Id: number;
  readonly ObjectPathType: number;
  readonly Name: string;
  readonly ParentObjectPathId?: number;
  readonly ArgumentInfo?: ArgumentInfo;
}
interface Action {
  readonly Id: number;
  readonly ActionType: number;
  readonly Name: string;
  readonly ObjectPathId: number;
  readonly ArgumentInfo?: ArgumentInfo;
  readonly QueryInfo?: { readonly Select?: readonly string[] };
}
/** The body of a request as the library writes it. */
export interface Query {
  readonly Actions: readonly Action[];
  readonly ObjectPaths: Readonly<Record<string, ObjectPath>>;
}
interface ActionResult {
  readonly ActionId: number;
  readonly Value: unknown;
}
/** The body of an answer as the library reads it. */
export interface Answer {
  readonly Results: readonly ActionResult[];
  readonly TraceIds: readonly number[];
  readonly Error?: {
    readonly Code: string;
    readonly Message: string;
    readonly ActionIndex: number;
    readonly HttpStatusCode: number;
  };
}

/** What the library calls the kinds of actions and of ways to an object. */
const ACTION = { instantiate: 1, query: 2, method: 3, set: 4, trace: 5 } as const;
const PATH = { root: 1, made: 2, method: 3, property: 4, item: 5, kept: 6, none: 7 } as const;

/** Excel on the web refuses larger requests (learn.microsoft.com, resource limits of add-ins). */
export const MAX_BYTES = 5_000_000;

/** Names on the wire begin with a capital. */
const memberName = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);
const wireName = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);

export interface RequestSize {
  readonly actions: number;
  readonly bytes: number;
}

const failed = (Code: string, Message: string, ActionIndex: number): Answer => ({
  Results: [],
  TraceIds: [],
  Error: { Code, Message, ActionIndex, HttpStatusCode: 400 },
});

export class Executor implements Desk {
  readonly kept = new Map<string, Served>();
  /** Every request so far, without those that only let objects go. */
  readonly requests: RequestSize[] = [];
  /** Members that were asked for, such as "Range.formulas". */
  readonly used = new Set<string>();
  /** Misuse that was found; a test that ends with any has failed. */
  readonly faults: string[] = [];
  /** Bytes of the largest answer so far. */
  largestAnswer = 0;
  /** Most objects that were kept at a time. */
  mostKept = 0;
  /** The action that fails, counted from 1 over all requests; 0 for none. */
  failAtAction = 0;
  actions = 0;
  /** Called before each request; what it throws is Excel's answer. */
  beforeRequest: ((request: RequestSize) => void) | undefined;
  /** Results of functions as they came in. */
  readonly results: HandedOver[] = [];
  private readonly keptAs = new WeakMap<Served, string>();
  private keptIds = 0;

  constructor(
    readonly workbook: WorkbookInMemory,
    readonly words: (enumeration: string) => readonly string[],
  ) {}

  /** Carries out a request of so many bytes; an answer that is too large is not given. */
  execute(query: Query, bytes: number): Answer {
    const answer = this.carryOut(query, bytes);
    const size = new TextEncoder().encode(JSON.stringify(answer)).length;
    this.largestAnswer = Math.max(this.largestAnswer, size);
    if (size <= MAX_BYTES) return answer;
    this.faults.push(`ResponsePayloadSizeLimitExceeded: ${size} bytes`);
    return failed('ResponsePayloadSizeLimitExceeded', 'too large an answer', 0);
  }

  private carryOut(query: Query, bytes: number): Answer {
    const housekeeping = query.Actions.every(
      ({ ActionType, Name }) => ActionType === ACTION.instantiate || Name === '_RemoveReference',
    );
    const size = { actions: query.Actions.length, bytes };
    if (!housekeeping) this.requests.push(size);
    const results: ActionResult[] = [];
    const traces: number[] = [];
    const found = new Map<number, Served>();
    let index = 0;
    try {
      if (!housekeeping) this.planned(size);
      if (bytes > MAX_BYTES) throw new Refusal('RequestPayloadSizeLimitExceeded');
      for (const action of query.Actions) {
        if (!housekeeping) this.actions += 1;
        if (this.actions === this.failAtAction && !housekeeping) {
          throw new PlannedFailure(`planned at ${action.Name || 'an object'}`);
        }
        if (action.ActionType === ACTION.trace) {
          traces.push(action.Id);
          // Whoever listens for an event is let in by the answer to its mark.
          results.push({ ActionId: action.Id, Value: null });
        } else {
          const self = this.find(query, action.ObjectPathId, found);
          const value = this.act(action, self, query, found);
          if (value !== undefined) results.push({ ActionId: action.Id, Value: value });
        }
        index += 1;
      }
      return { Results: results, TraceIds: traces };
    } catch (thrown) {
      const planned = thrown instanceof PlannedFailure;
      if (thrown instanceof Refusal && !planned && !foreseen.has(thrown.code)) {
        this.faults.push(`${thrown.code}: ${thrown.message}`);
      }
      const { code = 'GeneralException', message } = thrown as Partial<Refusal>;
      return { ...failed(code, message ?? code, index), Results: results, TraceIds: traces };
    }
  }

  /** What the test lets go wrong with a request. */
  private planned(size: RequestSize): void {
    try {
      this.beforeRequest?.(size);
    } catch (thrown) {
      const { code, message } = thrown as Partial<Refusal>;
      throw new PlannedFailure(message ?? '', code);
    }
  }

  private act(action: Action, self: Served, query: Query, found: Map<number, Served>): unknown {
    const { Name, ActionType, ObjectPathId } = action;
    const path = query.ObjectPaths[ObjectPathId] as ObjectPath;
    const name = memberName(Name);
    switch (ActionType) {
      case ACTION.instantiate:
        return this.identity(self, path);
      case ACTION.query:
        return this.query(self, action.QueryInfo?.Select ?? []);
      case ACTION.method: {
        if (Name === '_KeepReference') {
          this.keep(self);
          return null;
        }
        const method = members[self.type]?.methods?.[name];
        if (!method) throw this.notServed(self, name);
        this.note(self, name);
        return (
          method(this, self.target as never, this.given(action.ArgumentInfo, query, found)) ?? null
        );
      }
      case ACTION.set: {
        const write = members[self.type]?.writes?.[name];
        if (!write) throw this.notServed(self, name);
        this.note(self, name);
        const value = action.ArgumentInfo?.Arguments?.[0];
        const [accepts, effect] = typeof write === 'function' ? [write, undefined] : write;
        if (!accepts(value, this)) {
          throw new Refusal(
            'InvalidArgument',
            `${self.type}.${name} does not take ${JSON.stringify(value)}`,
          );
        }
        effect?.(this, self.target as never, value as never);
        return undefined;
      }
      default:
        throw this.notServed(self, `action ${ActionType}`);
    }
  }

  /** The object at the end of a path; each is looked up, or made, once in a request. */
  private find(query: Query, id: number, found: Map<number, Served>): Served {
    const before = found.get(id);
    if (before) return before;
    const path = query.ObjectPaths[id];
    if (!path) throw new Refusal('InvalidObjectPath', `no object path ${id}`);
    const object = this.follow(query, path, found);
    found.set(id, object);
    return object;
  }

  private follow(query: Query, path: ObjectPath, found: Map<number, Served>): Served {
    switch (path.ObjectPathType) {
      case PATH.root:
        return { type: 'Workbook', target: undefined };
      case PATH.kept: {
        const object = this.kept.get(path.Name);
        if (!object) throw new Refusal('InvalidReference', `${path.Name} is not kept any more`);
        return object;
      }
      case PATH.none:
        throw new Refusal('InvalidObjectPath', 'an object that is not there is used');
      case PATH.made: {
        const type = path.Name.slice(path.Name.lastIndexOf('.') + 1);
        if (!members[type]) throw this.notServed({ type, target: undefined }, 'new');
        return { type, target: undefined };
      }
      default: {
        const parent = this.find(query, path.ParentObjectPathId as number, found);
        if (parent.isNull) {
          throw new Refusal('InvalidObjectPath', 'an object that is not there is used');
        }
        const name = path.ObjectPathType === PATH.item ? 'getItem' : memberName(path.Name);
        const reach = members[parent.type]?.objects?.[name];
        if (!reach) throw this.notServed(parent, name);
        this.note(parent, name);
        return reach(this, parent.target as never, this.given(path.ArgumentInfo, query, found));
      }
    }
  }

  /** Arguments, with the objects among them. */
  private given(
    info: ArgumentInfo | undefined,
    query: Query,
    found: Map<number, Served>,
  ): readonly unknown[] {
    const ids = info?.ReferencedObjectPathIds;
    return (info?.Arguments ?? []).map((value, i) =>
      typeof ids?.[i] === 'number' && ids[i] !== 0
        ? this.find(query, ids[i] as number, found)
        : value,
    );
  }

  private keep(self: Served): void {
    if (self.isNull || this.keptAs.has(self)) return;
    this.keptIds += 1;
    this.keptAs.set(self, `kept-${this.keptIds}`);
    this.kept.set(`kept-${this.keptIds}`, self);
    this.mostKept = Math.max(this.mostKept, this.kept.size);
  }

  /** By what the library finds an object again in its next request. */
  private identity(self: Served, path: ObjectPath): unknown {
    if (self.isNull) return null;
    if (path.ObjectPathType === PATH.kept) return { _ReferenceId: path.Name };
    const keptAs = this.keptAs.get(self);
    if (keptAs !== undefined) return { _ReferenceId: keptAs };
    const id = members[self.type]?.id?.(self.target as never);
    return id === undefined ? {} : { _Id: id };
  }

  private query(self: Served, select: readonly string[]): unknown {
    if (self.isNull) return null;
    const known = members[self.type];
    if (known?.items) {
      this.note(self, 'items');
      return {
        _Items: known.items(this, self.target as never).map((item) => this.query(item, select)),
      };
    }
    const id = known?.id?.(self.target as never);
    return {
      ...(id !== undefined && { _Id: id }),
      ...Object.fromEntries(
        select.map((wanted) => {
          const name = memberName(wanted);
          const read = known?.reads?.[name];
          if (!read) throw this.notServed(self, name);
          this.note(self, name);
          return [wireName(name), read(this, self.target as never)];
        }),
      ),
    };
  }

  private note({ type }: Served, name: string): void {
    if (!name.startsWith('_')) this.used.add(`${type}.${name}`);
  }

  private notServed({ type }: Served, name: string): Refusal {
    return new Refusal('ApiNotFound', `${type}.${name} is not served by the workbook in memory`);
  }
}

/** A failure that the test asked for. */
class PlannedFailure extends Refusal {
  constructor(message: string, code = 'GeneralException') {
    super(code, message);
  }
}

/** What may go wrong in an Excel without any fault of ours. */
const foreseen = new Set(['AccessDenied', 'InvalidOperationInCellEditMode', 'GeneralException']);
