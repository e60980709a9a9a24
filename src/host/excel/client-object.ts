import { invalidArgument, invalidObjectPath, propertyNotLoaded } from "./excel-error";
import type { LocalContext } from "./request-context";

/**
 * The forms in which properties are named to `load`: "a, b/c", ["a", "b/c"], { a: true, b: { c: true } }, { select: "a, b/c" }, or
 * nothing for all.
 */
export type LoadOption = string | string[] | object;

export interface Loadable {
  load(option?: LoadOption): unknown;
}

/** Most things have nothing that hangs on them. */
const NO_PARTS: ReadonlyMap<string, Loadable> = new Map();

/**
 * A stand-in for a thing of the workbook. It is found at sync, in the order in which it was asked for; its properties can be read
 * after they were loaded and synced, and are a copy of that moment.
 * @typeParam Target what the stand-in points to, once found
 */
export abstract class ClientObject<Target> {
  /** How each property that can be loaded is read from the grid. */
  protected abstract readonly readers: Readonly<Record<string, (target: Target) => unknown>>;
  /** undefined before the sync that finds it, null for a null object. */
  private target: Target | null | undefined = undefined;
  private readonly copies = new Map<string, unknown>();

  /** @param find runs at sync; gives null for a null object, or throws */
  constructor(protected readonly local: LocalContext, protected readonly entity: string, find: () => Target | null) {
    local.queue(() => {
      this.target = find();
    });
  }

  get context(): Excel.RequestContext {
    return this.local.asExcel;
  }

  get isNullObject(): boolean {
    if (this.target === undefined) throw propertyNotLoaded(this.entity, "isNullObject");
    return this.target === null;
  }

  /** What it points to, for the requests that hang on it; null for a null object. */
  found(): Target | null {
    if (this.target === undefined) throw invalidObjectPath(this.entity);
    return this.target;
  }

  /** The object that hangs on this one under a name, such as a range's format: "format/fill/color" is loaded through it. */
  protected part(name: string): Loadable | undefined {
    return NO_PARTS.get(name);
  }

  protected queueLoad(option: LoadOption | undefined): void {
    this.local.queue(() => {
      const target = this.found();
      for (const path of namesToLoad(option) ?? Object.keys(this.readers)) {
        const [name = "", ...rest] = path.split("/");
        const part = this.part(name);
        const read = this.readers[name];
        if (part) part.load(rest.length > 0 ? rest.join("/") : undefined);
        else if (!read || rest.length > 0) throw invalidArgument(`${this.entity}.load`, `there is no property '${path}'.`);
        else if (target !== null) this.copies.set(name, read(target));
      }
    });
  }

  /** Queues something to be done; on a null object nothing is done. */
  protected queueWith(act: (target: Target) => void): void {
    this.local.queue(() => {
      const target = this.found();
      if (target !== null) act(target);
    });
  }

  /** How a thing that hangs on this one is found: below a null object all is null. */
  protected below<Below>(find: (target: Target) => Below | null): () => Below | null {
    return () => {
      const target = this.found();
      return target === null ? null : find(target);
    };
  }

  /** The copy that the last load brought. On a null object, properties are undefined, as in Excel. */
  protected loadedCopy(name: string): unknown {
    if (!this.copies.has(name) && this.target !== null) throw propertyNotLoaded(this.entity, name);
    return this.copies.get(name);
  }

  /** What was set can be read again at once, as in Excel. */
  protected keepCopy(name: string, value: unknown): void {
    this.copies.set(name, value);
  }

  /** Sets a property: what was set can be read at once, the grid has it after sync. */
  protected setCopy(name: string, value: unknown, act: (target: Target) => void): void {
    this.keepCopy(name, value);
    this.queueWith(act);
  }
}

/** null for all properties. */
export function namesToLoad(option: LoadOption | undefined): string[] | null {
  if (option === undefined) return null;
  if (typeof option === "string") return option.split(",").map((name) => name.trim());
  if (Array.isArray(option)) return option.map((name) => String(name).trim());
  const { select, ...flags } = option as Record<string, unknown>;
  if (typeof select === "string" || Array.isArray(select)) return namesToLoad(select);
  return Object.entries(flags).flatMap(([name, flag]) => {
    if (typeof flag === "object" && flag !== null) return (namesToLoad(flag) ?? []).map((below) => `${name}/${below}`);
    return flag === true ? [name] : [];
  });
}
