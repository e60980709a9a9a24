import { asExcelError, invalidArgument, invalidObjectPath, itemNotFound, notImplemented } from "../../../src/host/excel/excel-error";
import type { LocalContext } from "../../../src/host/excel/request-context";
import { identity, isNull, queried } from "./replay-values";
import type { ReplayHost, Thing } from "./replay-host";
import { ACTION, type ActionInfo, type ArgumentInfo, memberName, type ObjectPathInfo, PATH, type RequestBody, type ResponseBody } from "./wire";

/**
 * Does on the stand-in what one batch of the library asks for, action by action, within one sync of the stand-in: each object path
 * becomes an object of the stand-in when its instantiation is asked for. The first action that fails ends the batch, as in Excel.
 */
export class BatchReplay {
  private readonly objects = new Map<number, Thing | null>();
  private readonly results: { ActionId: number; Value: unknown }[] = [];
  private readonly traces: number[] = [];
  private error: ResponseBody["Error"];

  constructor(private readonly host: ReplayHost, private readonly local: LocalContext, private readonly body: RequestBody) {}

  /** To be called within a sync of the stand-in, where its requests are done at once. */
  run(): void {
    for (const [index, action] of this.body.Actions.entries()) {
      try {
        this.results.push({ ActionId: action.Id, Value: this.act(action) });
      } catch (error) {
        const { code, message, debugInfo } = asExcelError(error);
        this.error = { Code: code, Message: message, Location: debugInfo.errorLocation, ActionIndex: index, HttpStatusCode: 400 };
        return;
      }
    }
  }

  response(): ResponseBody {
    return { Results: this.results, TraceIds: this.traces, Error: this.error };
  }

  private act(action: ActionInfo): unknown {
    if (action.ActionType === ACTION.trace) {
      this.traces.push(action.Id);
      return null;
    }
    const path = this.body.ObjectPaths[action.ObjectPathId];
    if (!path) throw invalidObjectPath(String(action.ObjectPathId));
    const className = path.T ?? "";
    if (action.ActionType === ACTION.instantiate) {
      if (!this.objects.has(path.Id)) this.objects.set(path.Id, this.find(path));
      const thing = this.thing(path.Id);
      return isNull(thing) ? null : identity(this.host, thing, className);
    }
    const thing = this.thing(path.Id);
    if (action.ActionType === ACTION.query) return isNull(thing) ? null : queried(this.host, thing, className, action.QueryInfo ?? {});
    if (action.ActionType === ACTION.method) return this.invoke(thing, className, action.Name, this.argumentsOf(action.ArgumentInfo));
    if (action.ActionType !== ACTION.setProperty) throw notImplemented("RequestContext", `action ${action.ActionType}`);
    const [value] = this.argumentsOf(action.ArgumentInfo, false);
    if (thing) thing[memberName(action.Name)] = value;
    return null;
  }

  private find(path: ObjectPathInfo): Thing | null {
    // A null object keeps the number of a parent that the batch does not name.
    const below = (find: (parent: Thing) => unknown): Thing | null => {
      const parent = this.thing(path.ParentObjectPathId ?? 0);
      return parent && (find(parent) as Thing);
    };
    switch (path.ObjectPathType) {
      case PATH.globalObject:
        return this.local.workbook;
      case PATH.nullObject:
        return null;
      case PATH.reference: {
        const kept = this.host.references.get(path.Name);
        if (!kept) throw itemNotFound(path.Name);
        return kept;
      }
      case PATH.property:
        return below((parent) => parent[memberName(path.Name)]);
      case PATH.indexer:
        return below((parent) => parent.getItem(...this.argumentsOf(path.ArgumentInfo)));
      case PATH.method:
        if (path.Name === "GetBoundingRect") return below((parent) => boundingRect(parent, this.argumentsOf(path.ArgumentInfo)[0] as Thing));
        return below((parent) => parent[memberName(path.Name)](...this.argumentsOf(path.ArgumentInfo)));
      default:
        throw notImplemented("RequestContext", `object path ${path.ObjectPathType}`);
    }
  }

  private invoke(thing: Thing | null, className: string, name: string, args: unknown[]): unknown {
    if (name === "_RemoveReference") {
      this.host.references.delete(String(args[0]));
      return null;
    }
    if (thing === null || isNull(thing)) return null;
    if (name === "_KeepReference") {
      this.host.keep(thing);
      return null;
    }
    if (name === "_ValidateArraySize") return sameSize(thing, Number(args[0]), Number(args[1]));
    if (this.host.event(thing, className, name)) return null;
    const result = thing[memberName(name)](...args) as { readonly value?: unknown } | undefined;
    return result?.value ?? null;
  }

  /** The library instantiates every object before it uses it; one that it did not is a fault of the batch. */
  private thing(pathId: number): Thing | null {
    const thing = this.objects.get(pathId);
    if (thing === undefined) throw invalidObjectPath(this.body.ObjectPaths[pathId]?.Name ?? String(pathId));
    return thing;
  }

  /** @param cut arguments that were left out arrive as null at the end, and are left out here */
  private argumentsOf({ Arguments = [], ReferencedObjectPathIds: references }: ArgumentInfo = {}, cut = true): unknown[] {
    const given = Arguments.map((value, place) => this.argument(value, references?.[place]));
    while (cut && given.length > 0 && given[given.length - 1] === null) given.pop();
    return given;
  }

  private argument(value: unknown, reference: unknown): unknown {
    if (typeof reference === "number" && reference > 0) return this.thing(reference);
    if (Array.isArray(value)) return value.map((one: unknown, place) => this.argument(one, Array.isArray(reference) ? reference[place] : 0));
    if (typeof value !== "object" || value === null) return value;
    if ("_ObjectPathId" in value) return this.thing(Number(value._ObjectPathId));
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, this.argument(one, 0)]));
  }
}

/** The library cuts more than 1,500 cells into blocks of rows by this member, which the stand-in does not have. */
function boundingRect(range: Thing, other: Thing): Thing {
  for (const one of [range, other]) one.load(["rowIndex", "columnIndex", "rowCount", "columnCount"]);
  const [top, left] = [Math.min(range.rowIndex, other.rowIndex), Math.min(range.columnIndex, other.columnIndex)];
  const [bottom, right] = [range, other].map((one) => [one.rowIndex + one.rowCount, one.columnIndex + one.columnCount] as const).reduce(([a, b], [c, d]) => [Math.max(a, c), Math.max(b, d)]);
  return range.worksheet.getRangeByIndexes(top, left, bottom - top, right - left) as Thing;
}

function sameSize(range: Thing, rows: number, columns: number): null {
  range.load(["rowCount", "columnCount"]);
  if (range.rowCount !== rows || range.columnCount !== columns) throw invalidArgument("Range", `the range has ${range.rowCount} rows and ${range.columnCount} columns, what was given has not.`);
  return null;
}
