import { invalidArgument, notImplemented } from "../../../src/host/excel/excel-error";
import { idOf, type ReplayHost, type Thing } from "./replay-host";
import { type ActionInfo, wireName } from "./wire";

/** Classes of which Excel finds an object again by its name, the stand-in having no id for them. */
const FOUND_BY_NAME = new Set(["NamedItem", "TableColumn"]);

export const isNull = (thing: Thing | null): boolean => thing === null || ("isNullObject" in thing && thing.isNullObject === true);

/** By what the library asks for an object in later batches: its id, and its reference where it is kept. */
export function identity(host: ReplayHost, thing: Thing | null, className: string): Record<string, unknown> {
  if (thing === null) return {};
  const reference = host.referenceOf(thing);
  return { ...keyOf(thing, className), ...(reference === undefined ? {} : { _ReferenceId: reference }) };
}

function keyOf(thing: Thing, className: string): Record<string, unknown> {
  if ("id" in thing) return { Id: idOf(thing) };
  if (!FOUND_BY_NAME.has(className)) return {};
  thing.load("name");
  return { _Id: thing.name };
}

/** The answer to a load. */
export function queried(host: ReplayHost, thing: Thing | null, className: string, { Select, Expand, Top, Skip }: NonNullable<ActionInfo["QueryInfo"]>): unknown {
  if (thing === null) return null;
  if (Expand !== undefined || Top !== undefined || Skip !== undefined) throw notImplemented(className, "load with expand, top or skip");
  const names = Select && !Select.includes("*") ? Select : undefined;
  const identified = identity(host, thing, className);
  if (!className.endsWith("Collection")) return { ...identified, ...properties(host, thing, className, names) };
  // Of a collection "count" is its own, every other name is one of its items.
  const count = names === undefined || names.includes("count") ? { Count: countOf(thing) } : {};
  const ofItems = names?.filter((name) => name !== "count");
  if (names?.includes("count") && ofItems?.length === 0) return { ...identified, ...count };
  const itemClass = className.replace(/(Scoped)?Collection$/, "");
  return { ...identified, ...count, _Items: itemsOf(thing).map((item) => ({ ...identity(host, item, itemClass), ...properties(host, item, itemClass, ofItems) })) };
}

const countOf = (collection: Thing): number => (collection.getCount() as { readonly value: number }).value;

function itemsOf(collection: Thing): Thing[] {
  return Array.from({ length: countOf(collection) }, (_item, place) => collection.getItemAt(place) as Thing);
}

/** @param names "address", "format/columnWidth"; without names all plain properties that the stand-in has of the class */
function properties(host: ReplayHost, thing: Thing, className: string, names: readonly string[] | undefined): Record<string, unknown> {
  const asked = names ?? host.scalarNames(className).filter((name) => name in thing);
  const own = asked.filter((name) => !name.includes("/"));
  const answer: Record<string, unknown> = {};
  for (const part of new Set(asked.filter((name) => name.includes("/")).map((name) => name.slice(0, name.indexOf("/"))))) {
    if (part === "items") throw invalidArgument(`${className}.load`, 'the library knows "items/..." in a text only, not in an array.');
    const below = asked.filter((name) => name.startsWith(`${part}/`)).map((name) => name.slice(part.length + 1));
    answer[wireName(part)] = properties(host, thing[part] as Thing, "", below);
  }
  if (own.length > 0) thing.load(own);
  for (const name of own) answer[wireName(name)] = thing[name];
  return answer;
}
