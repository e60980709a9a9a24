import { LocalContext } from "../../../src/host/excel/request-context";
import type { GridPort } from "../../../src/host/grid-port";
import type { ClientLibrary } from "./genuine-excel";
import { BatchReplay } from "./replay";
import type { RequestBody, RequestExecutor } from "./wire";

/** An object of the stand-in, by the members that the library names. */
export type Thing = Record<string, any>;

/** The events that the library registers by a method of its own, their number in its messages, and the event of the stand-in. */
const EVENTS: Readonly<Record<string, { readonly messageType: number; readonly event: string }>> = {
  DataChangedEvent: { messageType: 10, event: "onChanged" },
  ActivatedEvent: { messageType: 11, event: "onActivated" },
  SelectionChangedEvent: { messageType: 14, event: "onSelectionChanged" },
  CalculatedEvent: { messageType: 16, event: "onCalculated" },
};
const EVENT_MESSAGE = 65536;

/** The stand-in in the place of Excel's process: it keeps what lives longer than a batch, references and registered events. */
export class ReplayHost {
  /** Objects that the library asked to keep, by the id that they were given. */
  readonly references = new Map<string, Thing>();
  /** Every batch as it was sent. */
  readonly batches: RequestBody[] = [];
  private readonly ids = new WeakMap<Thing, string>();
  private readonly registered = new Map<string, () => void>();
  private made = 0;

  constructor(private readonly port: GridPort, private readonly library: ClientLibrary) {}

  /** One for each request context. Batches and answers go through JSON, as between two processes. */
  executor(): RequestExecutor {
    const local = new LocalContext(this.port);
    return {
      executeAsync: async (_customData, _flags, message) => {
        const body = asJson(message.Body);
        this.batches.push(body);
        const replay = new BatchReplay(this, local, body);
        local.queue(() => replay.run());
        await local.sync();
        return { HttpStatusCode: 200, ErrorCode: null, ErrorMessage: null, Headers: {}, Body: asJson(replay.response()) };
      },
    };
  }

  keep(thing: Thing): void {
    if (this.ids.has(thing)) return;
    this.made += 1;
    const id = `ref${this.made}`;
    this.ids.set(thing, id);
    this.references.set(id, thing);
  }

  /** undefined for an object that was not to be kept. */
  referenceOf(thing: Thing): string | undefined {
    return this.ids.get(thing);
  }

  /** Names of the plain properties of a class of the library. */
  scalarNames(className: string): readonly string[] {
    return this.library.Excel[className]?.prototype._scalarPropertyNames ?? [];
  }

  /** @param method "_RegisterDataChangedEvent" and the like; @returns whether it is one of an event */
  event(thing: Thing, className: string, method: string): boolean {
    const [, verb, name = ""] = /^_(Register|Unregister)(\w+)$/.exec(method) ?? [];
    const known = EVENTS[name];
    if (!verb || !known) return false;
    const targetId = className === "WorksheetCollection" ? "Workbook" : idOf(thing);
    const key = `${known.event} ${targetId}`;
    if (verb === "Unregister") {
      this.registered.get(key)?.();
      this.registered.delete(key);
    } else if (!this.registered.has(key)) {
      const added = thing[known.event].add(async (args: object) => this.tell(known.messageType, targetId, args));
      this.registered.set(key, () => added.remove());
    }
    return true;
  }

  private tell(messageType: number, targetId: string, args: object): void {
    this.library.OfficeExtension._testTriggerRichApiMessageEvent({ entries: [{ messageCategory: EVENT_MESSAGE, messageType, targetId, message: JSON.stringify(args) }] });
  }
}

export function idOf(thing: Thing): string {
  thing.load("id");
  return thing.id as string;
}

const asJson = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
