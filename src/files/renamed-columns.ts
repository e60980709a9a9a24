import { formulaTokens } from "./formula-tokens";

/** The new names of a table's columns, by the old ones in small letters. */
export type ColumnNames = ReadonlyMap<string, string>;

/** In a name inside brackets an apostrophe takes the next character literally. */
const SPECIAL = /['[\]#@]/g;
/** A name that may follow "@" without brackets of its own. */
const PLAIN = /^[\p{L}_][\p{L}\p{N}_]*$/u;
const ITEM = /\[((?:'[\s\S]|[^[\]'])*)\]/g;

/**
 * A formula in which columns of tables are called by their new names.
 * @param namesOf gives the new names of a table's columns, by the table's name in small letters
 * @param own the table in which the formula stands
 */
export function withRenamedColumns(formula: string, namesOf: (table: string) => ColumnNames | undefined, own?: string): string {
  if (!formula.includes("[")) return formula;
  const tokens = formulaTokens(formula);
  return tokens.map(({ kind, text }, at) => {
    if (kind !== "bracket") return text;
    const before = tokens[at - 1];
    const table = before?.kind === "word" ? before.text : own;
    const names = table === undefined ? undefined : namesOf(table.toLowerCase());
    return names ? renamed(text, names) : text;
  }).join("");
}

function renamed(bracket: string, names: ColumnNames): string {
  const inner = bracket.slice(1, -1);
  const nameOf = (stored: string) => names.get(stored.replace(/'([\s\S])/g, "$1").toLowerCase());
  if (/(?:^|[^'])\[/.test(inner)) return `[${inner.replace(ITEM, (item, stored: string) => (stored.startsWith("#") ? item : written(item, nameOf(stored))))}]`;
  const [mark, stored] = inner.startsWith("@") ? ["@", inner.slice(1)] : ["", inner];
  const name = stored.startsWith("#") ? undefined : nameOf(stored);
  if (name === undefined) return bracket;
  return mark === "" || PLAIN.test(name) ? `[${mark}${name.replace(SPECIAL, "'$&")}]` : `[@${written("", name)}]`;
}

function written(item: string, name: string | undefined): string {
  return name === undefined ? item : `[${name.replace(SPECIAL, "'$&")}]`;
}
