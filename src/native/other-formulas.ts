import type { Book } from "../files/book";
import { fromStored, toStored } from "../files/formula-text";
import { dropRules } from "../files/hand-over/drop-rules";
import { needsAddIn } from "../files/hand-over/freeze-sheet";
import type { PartEdits } from "../files/hand-over/part-edits";
import { type CellContent, setFormulas } from "../files/hand-over/set-formulas";
import type { WorkbookPart } from "../files/workbook-part";
import { applyEdits, attribute, type Edit, escapeXml, isSpreadsheet, tagStart, walkXml } from "../files/xml";
import { native } from "../words/native";
import type { DroppedNames } from "./dropped-names";
import type { FixedSpills } from "./fixed-spills";

/** What of the workbook besides our cells changed in the copy, as its cover lists it. */
export interface Others {
  readonly dropped: readonly { readonly what: string; readonly where: string; readonly formula: string }[];
  /** Cells that read a whole answer of ours. */
  readonly ranges: readonly { readonly sheet: string; readonly cells: readonly string[] }[];
}

const words = native.cover;

/**
 * Formulas that are none of our cells: those of the keeper's that read all that spills from one of ours read a range, and names, formats
 * and validations that need the add-in are taken out. `frozen`: cells that are written anyhow.
 */
export async function writeOthers(parts: PartEdits, workbook: WorkbookPart, book: Book, { spills, changed, dropped, frozen }: { readonly spills: FixedSpills; readonly changed: ReadonlyMap<string, ReadonlyMap<string, string>>; readonly dropped: DroppedNames; readonly frozen: ReadonlySet<string> }): Promise<Others> {
  const gone: { what: string; where: string; formula: string }[] = [];
  const ranges: { sheet: string; cells: string[] }[] = [];
  const isGone = (formula: string): boolean => needsFunctions(formula) || dropped.isRead(fromStored(formula));
  for (const { name, part } of workbook.sheets) {
    const cells = book.sheets.find((sheet) => sheet.name === name)?.cells;
    const own = [...(changed.get(name) ?? [])].filter(([address]) => !frozen.has(`${name}!${address}`));
    const contents = new Map(own.map(([address, formula]): [string, CellContent] => [address, { formula, spills: cells?.get(address)?.spill !== undefined, ...resultOf(cells?.get(address)?.value ?? null) }]));
    if (own.length > 0) {
      parts.set(part, setFormulas(await parts.text(part), part, contents));
      ranges.push({ sheet: name, cells: own.map(([address]) => address) });
    }
    const rules = dropRules(await parts.text(part), part, isGone, (formula) => rewritten(formula, name, spills));
    parts.set(part, rules.xml);
    for (const { kind, range, text } of rules.dropped) gone.push({ what: words.droppedRules[kind], where: `${name}, ${range}`, formula: `=${fromStored(text)}` });
  }
  const names = namesWritten(await parts.text(workbook.part), workbook.part, dropped, spills);
  parts.set(workbook.part, names);
  for (const { name, ref } of dropped.names) gone.push({ what: words.droppedName, where: name, formula: `=${ref}` });
  return { dropped: gone, ranges };
}

const needsFunctions = (formula: string): boolean => /ALGAL/i.test(formula) && needsAddIn(formula);

/** A stored formula that reads what spills from a cell of ours, with the range in its place. */
function rewritten(stored: string, sheet: string, spills: FixedSpills): string {
  const shown = fromStored(stored);
  const text = spills.text(shown, sheet);
  return text === shown ? stored : toStored(text);
}

const resultOf = (value: number | string | boolean | null): Pick<CellContent, "result"> => ({ result: value === null ? "" : typeof value === "string" && /^#[A-Z]/.test(value) ? { code: value } : value });

/** The workbook part without the names that cannot stand, the others rewritten. */
function namesWritten(xml: string, part: string, dropped: DroppedNames, spills: FixedSpills): string {
  const edits: Edit[] = [];
  let open: { start: number; tagEnd: number; name: string; text: string } | null = null;
  let list: { start: number; names: number } | null = null;
  walkXml(xml, part, {
    open(tag, end) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "definedNames") list = { start: tagStart(xml, end), names: 0 };
      if (tag.local === "definedName") open = { start: tagStart(xml, end), tagEnd: end, name: attribute(tag, "name") ?? "", text: "" };
    },
    text(text) {
      if (open) open.text += text;
    },
    close(tag, end) {
      if (tag.local === "definedName" && open) {
        if (dropped.has(open.name)) edits.push({ start: open.start, end, text: "" });
        else {
          if (list) list.names += 1;
          const text = rewritten(open.text, "", spills);
          if (text !== open.text) edits.push({ start: open.tagEnd, end: tagStart(xml, end), text: escapeXml(text) });
        }
        open = null;
      }
      if (tag.local === "definedNames" && list?.names === 0 && dropped.names.length > 0) {
        const { start } = list;
        edits.splice(0, edits.length, { start, end, text: "" });
      }
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}
