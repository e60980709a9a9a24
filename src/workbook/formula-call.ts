/** What stands at one place of a formula's call, as far as the pane reads formulas itself. */
export type Argument =
  | { readonly kind: "value"; readonly value: number | string | boolean | null }
  | { readonly kind: "call"; readonly name: string; readonly args: readonly Argument[] }
  /** A range, a table or a name, as it is written: "'Set-up'!$A$2:$B$8". */
  | { readonly kind: "reference"; readonly text: string };

const CALL = /\bALGAL\.([A-Z][A-Z0-9_]*)\(/gi;
const WHOLE_CALL = /^ALGAL\.([A-Z][A-Z0-9_]*)\(/i;

/**
 * The first call of one of these functions in a formula with the separators of the English Excel (Range.formulas), wherever it
 * stands in it: the sample workbooks wrap it in INDEX. Null when there is none.
 * @param names ids of the functions, "BUDGET_N"
 */
export function callIn(formula: unknown, names: readonly string[]): Extract<Argument, { kind: "call" }> | null {
  if (typeof formula !== "string" || !formula.startsWith("=")) return null;
  for (const found of formula.matchAll(CALL)) {
    const name = (found[1] ?? "").toUpperCase();
    if (!names.includes(name) || isInText(formula, found.index)) continue;
    const start = found.index + found[0].length;
    const end = closingBracket(formula, start);
    if (end !== null) return { kind: "call", name, args: partsOf(formula.slice(start, end)).map(argumentOf) };
  }
  return null;
}

function argumentOf(written: string): Argument {
  const text = written.trim();
  if (text === "") return { kind: "value", value: null };
  if (/^(TRUE|FALSE)$/i.test(text)) return { kind: "value", value: text.toUpperCase() === "TRUE" };
  if (/^[+-]?(\d+\.?\d*|\.\d+)(E[+-]?\d+)?$/i.test(text)) return { kind: "value", value: Number(text) };
  if (/^"(?:[^"]|"")*"$/.test(text)) return { kind: "value", value: text.slice(1, -1).replace(/""/g, '"') };
  const call = WHOLE_CALL.exec(text);
  if (call && closingBracket(text, call[0].length) === text.length - 1) {
    return { kind: "call", name: (call[1] ?? "").toUpperCase(), args: partsOf(text.slice(call[0].length, -1)).map(argumentOf) };
  }
  return { kind: "reference", text };
}

/** Cuts at the commas that belong to this call: not in texts, quoted sheet names, inner brackets or the brackets of a table. */
function partsOf(text: string): string[] {
  const parts: string[] = [];
  let start = 0;
  walk(text, 0, (sign, place, depth) => {
    if (sign !== "," || depth > 0) return true;
    parts.push(text.slice(start, place));
    start = place + 1;
    return true;
  });
  const last = text.slice(start);
  return parts.length === 0 && last.trim() === "" ? [] : [...parts, last];
}

function closingBracket(text: string, start: number): number | null {
  let found: number | null = null;
  walk(text, start, (sign, place, depth) => {
    if (sign !== ")" || depth >= 0) return true;
    found = place;
    return false;
  });
  return found;
}

function isInText(formula: string, place: number): boolean {
  return (formula.slice(0, place).match(/"/g)?.length ?? 0) % 2 === 1;
}

/** Goes over the signs outside of quotes with the depth of brackets behind each, until told to stop. */
function walk(text: string, start: number, visit: (sign: string, place: number, depth: number) => boolean): void {
  let [depth, inTable, quote] = [0, 0, ""];
  for (let place = start; place < text.length; place += 1) {
    const sign = text.charAt(place);
    if (inTable > 0) {
      // Inside a table's brackets an apostrophe takes its meaning from the sign behind it.
      if (sign === "'") place += 1;
      else if (sign === "[") inTable += 1;
      else if (sign === "]") inTable -= 1;
      continue;
    }
    if (quote !== "") {
      if (sign === quote) quote = "";
      continue;
    }
    if (sign === '"' || sign === "'") quote = sign;
    else if (sign === "[") inTable = 1;
    else {
      if (sign === "(" || sign === "{") depth += 1;
      else if (sign === ")" || sign === "}") depth -= 1;
      if (!visit(sign, place, depth)) return;
    }
  }
}

/** Whether what stands in a cell is a formula that calls one of our functions. */
export const callsAlgal = (content: unknown): boolean => typeof content === "string" && content.startsWith("=") && /\bALGAL\./i.test(content.replace(/"[^"]*"/g, ""));
