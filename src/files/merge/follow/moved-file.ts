import { openArchive } from "../../archive";
import { dropCalculationChain, PartEdits } from "../../hand-over/part-edits";
import { formulaTokens, isCall, isSheetName } from "../../formula-tokens";
import { readRelationships } from "../../relationships";
import { readWorkbookPart, type WorkbookPart } from "../../workbook-part";
import { attribute, isSpreadsheet, walkXml } from "../../xml";
import { CannotMerge } from "../cannot-merge";
import { withChangedElements } from "./element-edits";
import { movedList, type SheetMoves } from "./line-move";
import { movedCells } from "./moved-cells";
import { movedDrawing, movedNotes } from "./moved-drawing";
import { inCells, movedFormula, type SheetChanges } from "./moved-formula";
import { movedAspects } from "./moved-sheet";
import { movedTable } from "./moved-table";

const CHARTS: ReadonlySet<string> = new Set(["chart", "chartEx"]);

/**
 * The file after rows and columns came, went, and sheets got other names: cells move in their parts with all that they are, and
 * whatever names cells names them on. The names of the sheets themselves stay, as they are written with the tabs.
 */
export async function movedFile(original: Uint8Array, changes: SheetChanges): Promise<Uint8Array> {
  const archive = await openArchive(original);
  const workbook = await readWorkbookPart(archive);
  const parts = new PartEdits(archive);
  const edit = async (part: string, change: (xml: string) => string) => {
    if (archive.has(part)) parts.set(part, change(await parts.text(part)));
  };
  const drawings = async (part: string, name: string, moves: SheetMoves) => {
    const moved = (formula: string) => movedFormula(formula, name, changes);
    for (const link of await readRelationships(archive, part)) {
      if (link.kind !== "drawing") continue;
      await edit(link.part, (xml) => movedDrawing(xml, link.part, moves, moved));
      for (const chart of await readRelationships(archive, link.part)) {
        if (CHARTS.has(chart.kind)) await edit(chart.part, (xml) => withChangedElements(xml, chart.part, ({ tag, text }) => (tag.local === "f" || tag.local === "sqref" ? { text: moved(text) } : null)));
      }
    }
  };
  for (const { name, part } of workbook.sheets) {
    const moves = changes.moves.get(name.toLowerCase()) ?? [];
    const moved = (formula: string) => movedFormula(formula, name, changes);
    const ofCell = (formula: string) => movedFormula(formula, name, inCells(changes));
    await edit(part, (xml) => movedAspects(movedCells(xml, part, moves, ofCell), part, moves, moved));
    await drawings(part, name, moves);
    for (const { kind, part: beside } of await readRelationships(archive, part)) {
      if (kind === "table") await edit(beside, (xml) => movedTable(xml, beside, moves, moved));
      if (moves.length === 0) continue;
      if (kind === "comments" || kind === "threadedComment") await edit(beside, (xml) => movedComments(xml, beside, moves));
      if (kind === "vmlDrawing") await edit(beside, (xml) => movedNotes(xml, moves));
      if (kind === "pivotTable") await edit(beside, (xml) => movedPivot(xml, beside, moves));
    }
  }
  for (const { kind, part } of workbook.relationships) {
    if (kind === "chartsheet") await drawings(part, "", []);
    if (kind === "pivotCacheDefinition") await edit(part, (xml) => movedSource(xml, part, changes));
  }
  await edit(workbook.part, (xml) => movedNames(xml, workbook, changes));
  if (changes.moves.size > 0) await dropCalculationChain(parts, workbook);
  const changed = parts.changed();
  return changed.size + parts.dropped.size > 0 ? archive.withParts(changed, parts.dropped) : original;
}

function movedComments(xml: string, part: string, moves: SheetMoves): string {
  return withChangedElements(xml, part, ({ tag }) => {
    if (tag.local !== "comment" && tag.local !== "threadedComment") return null;
    const ref = movedList(attribute(tag, "ref") ?? "", moves);
    return ref === "" ? { isGone: true } : { attributes: { ref } };
  });
}

/** A pivot table stands where its program puts it, and nothing may come into it. */
function movedPivot(xml: string, part: string, moves: SheetMoves): string {
  return withChangedElements(xml, part, ({ tag }) => {
    if (tag.local !== "location") return null;
    const ref = attribute(tag, "ref") ?? "";
    const after = movedList(ref, moves);
    if (size(after) !== size(ref)) throw new CannotMerge("Rows or columns inside a pivot table came or went.");
    return { attributes: { ref: after } };
  });
}

function size(ref: string): string {
  const lines = [...ref.matchAll(/([A-Z]+)(\d+)/g)].map(([, letters = "", row]) => [[...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0), Number(row)]);
  const [[left = 0, top = 0] = [], [right = left, bottom = top] = []] = lines;
  return ref === "" ? "" : `${right - left} ${bottom - top}`;
}

/** The cells that a pivot table was made from. */
function movedSource(xml: string, part: string, { moves, names }: SheetChanges): string {
  return withChangedElements(xml, part, ({ tag }) => {
    const sheet = tag.local === "worksheetSource" ? attribute(tag, "sheet")?.toLowerCase() : undefined;
    const ref = attribute(tag, "ref");
    if (sheet === undefined || Object.values(tag.attributes).some(({ local, prefix }) => local === "id" && prefix !== "")) return null;
    const after = ref === undefined ? undefined : movedList(ref, moves.get(sheet) ?? []);
    if (after === "") throw new CannotMerge("The cells that a pivot table was made from are gone.");
    return { attributes: { ...(after === undefined ? {} : { ref: after }), ...(names.has(sheet) ? { sheet: names.get(sheet) } : {}) } };
  });
}

function movedNames(xml: string, workbook: WorkbookPart, changes: SheetChanges): string {
  const tabs: string[] = [];
  walkXml(xml, workbook.part, {
    open(tag) {
      if (isSpreadsheet(tag) && tag.local === "sheet") tabs.push(attribute(tag, "name") ?? "");
    },
  });
  return withChangedElements(xml, workbook.part, ({ tag, text }) => {
    if (!isSpreadsheet(tag) || tag.local !== "definedName") return null;
    const own = tabs[Number(attribute(tag, "localSheetId") ?? -1)] ?? "";
    return { text: movedName(text, own, changes) };
  });
}

/** What a name stands for. A reference without dollar signs is seen from wherever the name is used, and stays. */
export function movedName(ref: string, own: string, changes: SheetChanges): string {
  const tokens = formulaTokens(ref);
  const isRelative = tokens.some(({ kind, text }, at) => kind === "word" && /^(?:\$?[A-Z]{1,3}[1-9]\d*|[A-Z]{1,3}\$[1-9]\d*)$/i.test(text) && !isCall(tokens, at) && !isSheetName(tokens, at));
  return movedFormula(ref, own, isRelative ? { ...changes, moves: new Map() } : changes);
}
