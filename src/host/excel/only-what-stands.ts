import { notImplemented } from "./excel-error";

/** Asked for by the language itself (await, JSON) and not a use of the API. */
const ASKED_BY_THE_LANGUAGE = new Set<PropertyKey>(["then", "toJSON", "constructor"]);

/**
 * Hands out an object of which only the members that stand can be read or set. Without this a setting that the host lacks,
 * such as a number format, would be swallowed, and the workbook code would seem to work here.
 */
export function onlyWhatStands<T extends object>(target: T, entity: string): T {
  return new Proxy(target, {
    get(object, member, receiver) {
      if (typeof member === "string" && !(member in object) && !ASKED_BY_THE_LANGUAGE.has(member)) throw notImplemented(entity, member);
      return Reflect.get(object, member, receiver);
    },
    set(object, member, value, receiver) {
      if (!(member in object)) throw notImplemented(entity, String(member));
      return Reflect.set(object, member, value, receiver);
    },
  });
}
