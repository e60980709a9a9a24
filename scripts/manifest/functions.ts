import { setup } from "../../src/words/setup";
import type { Check } from "./report";

const words = setup.manifest;
const WORD_WORD = /^[A-Z][A-Z0-9]*(_[A-Z0-9]+)+$/;
const MOST_IN_DESCRIPTION = 128;

interface FunctionEntry {
  id?: unknown;
  name?: unknown;
  description?: unknown;
  helpUrl?: unknown;
  parameters?: unknown;
}

/** The functions' metadata as Excel reads it: names, descriptions, help links under the manifest's own base address. */
export function checkFunctions(text: string, base: string, check: Check): void {
  const entries = readEntries(text);
  if (!check(entries !== undefined, 1, words.functionsNotRead) || !entries) return;
  check(entries.length > 0, 1, words.noFunctions);
  const seen = new Set<string>();
  let from = 0;
  for (const entry of entries) {
    const id = String(entry.id ?? "");
    const at = text.indexOf(`"id": ${JSON.stringify(id)}`, from);
    if (at >= 0) from = at + 1;
    const line = at < 0 ? 1 : text.slice(0, at).split("\n").length;
    checkName(id, words.functionId, line, check);
    checkName(String(entry.name ?? ""), words.functionName, line, check);
    check(!seen.has(id.toLowerCase()), line, words.functionTwice(id));
    seen.add(id.toLowerCase());
    checkDescription(words.functionHelp(id), entry.description, line, check);
    checkHelpLink(id, entry.helpUrl, base, line, check);
    checkParameters(id, entry.parameters, line, check);
  }
}

function readEntries(text: string): FunctionEntry[] | undefined {
  try {
    const { functions } = JSON.parse(text) as { functions?: unknown };
    return Array.isArray(functions) ? (functions as FunctionEntry[]) : undefined;
  } catch {
    return undefined;
  }
}

function checkName(name: string, what: string, line: number, check: Check): void {
  check(name.length >= 3 && name.length <= 64, line, words.functionNameLength(what, name));
  check(WORD_WORD.test(name), line, words.functionNameForm(what, name));
}

function checkDescription(what: string, description: unknown, line: number, check: Check): void {
  const length = typeof description === "string" ? description.trim().length : 0;
  check(length >= 1 && length <= MOST_IN_DESCRIPTION, line, words.descriptionLength(what, MOST_IN_DESCRIPTION, length));
}

function checkHelpLink(id: string, link: unknown, base: string, line: number, check: Check): void {
  const written = typeof link === "string" ? link : "";
  const isHttps = check(written.startsWith("https://") && URL.canParse(written), line, words.helpLink(id, written));
  if (isHttps) check(written.startsWith(base), line, words.elsewhere(written, base));
}

function checkParameters(id: string, parameters: unknown, line: number, check: Check): void {
  if (!check(Array.isArray(parameters), line, words.noParameters(id))) return;
  const seen = new Set<string>();
  for (const parameter of parameters as { name?: unknown; description?: unknown }[]) {
    const name = String(parameter.name ?? "");
    check(name !== "" && !seen.has(name.toLowerCase()), line, words.parameterName(id, name));
    seen.add(name.toLowerCase());
    checkDescription(words.parameterHelp(id, name), parameter.description, line, check);
  }
}
