import { type CellPlace, GRID_COLUMNS, readRange } from "../../address";
import { listedRanges, rangeOf } from "../../rule-ranges";
import { shiftFormula } from "../../shared-formula";
import { attribute, isSpreadsheet, walkXml, type XmlTag } from "../../xml";
import { CannotMerge } from "../cannot-merge";
import { COLUMNS, movedLine, movedList, movedRange, movedSpan, ROWS, type SheetMoves } from "./line-move";
import { type ElementChange, type SeenElement, withChangedElements } from "./element-edits";

/** Elements that are gone with the cells at which they stand, by the attribute that names these. */
const AT_CELLS: Readonly<Record<string, string>> = { hyperlink: "ref", mergeCell: "ref", dataValidation: "sqref", conditionalFormatting: "sqref", protectedRange: "sqref", ignoredError: "sqref", cellWatch: "r", inputCells: "r", autoFilter: "ref", sortState: "ref", sortCondition: "ref" };
/** Lists that may not be empty, and whether they tell how many they hold. */
const LISTS: Readonly<Record<string, string>> = { mergeCells: "mergeCell", hyperlinks: "hyperlink", dataValidations: "dataValidation", protectedRanges: "protectedRange", ignoredErrors: "ignoredError", cellWatches: "cellWatch", rowBreaks: "brk", colBreaks: "brk", cols: "col" };

/** What a worksheet part says beside its cells, after the changes. @param moved gives a formula of this sheet as it reads after them */
export function movedAspects(xml: string, part: string, moves: SheetMoves, moved: (formula: string) => string): string {
  const seen = rulesSeenFrom(xml, part, moves);
  const left = new Map<string, number>();
  let rule = -1;
  const inside = ({ around }: SeenElement) => around.some(({ local }) => local === "sheetData");
  return withChangedElements(xml, part, (element): ElementChange | null => {
    if (inside(element)) return null;
    const { around, tag } = element;
    const parent = around[around.length - 1];
    // What stands inside a rule is asked for before the rule itself.
    const shift = around.some(isRule) ? seen.get(rule + 1) : undefined;
    if (isRule(tag)) rule += 1;
    const change = isSpreadsheet(tag) ? spreadsheetChange(element, moves, moved, shift) : extensionChange(element, moves, moved, shift);
    if (parent && LISTS[parent.local] === tag.local && change?.isGone !== true) left.set(parent.local, (left.get(parent.local) ?? 0) + 1);
    const item = LISTS[tag.local];
    if (item === undefined || !isSpreadsheet(tag) || moves.length === 0) return change;
    const count = left.get(tag.local) ?? 0;
    return count === 0 ? { isGone: true } : { attributes: Object.fromEntries(["count", "manualBreakCount"].filter((name) => attribute(tag, name) !== undefined).map((name) => [name, name === "count" ? String(count) : attribute(tag, name)])) };
  });
}

const isRule = (tag: XmlTag): boolean => tag.local === "cfRule" || tag.local === "dataValidation";

function spreadsheetChange({ around, tag, text }: SeenElement, moves: SheetMoves, moved: (formula: string) => string, shift: CellPlace | undefined): ElementChange | null {
  const given = (name: string) => attribute(tag, name);
  const name = AT_CELLS[tag.local];
  const list = name === undefined ? undefined : given(name);
  if (name !== undefined && list !== undefined) {
    const ranges = movedList(list, moves);
    const isOne = tag.local === "mergeCell" && !ranges.includes(":");
    if (ranges === "" || isOne) return { isGone: true };
    return { attributes: { [name]: ranges, ...(tag.local === "hyperlink" && given("location") !== undefined ? { location: moved(given("location") ?? "") } : {}) } };
  }
  switch (tag.local) {
    case "hyperlink":
      return null;
    case "dimension":
      return { attributes: { ref: movedList(given("ref") ?? "A1", moves) || "A1" } };
    case "selection":
      return { attributes: { ...(given("activeCell") === undefined ? {} : { activeCell: movedList(given("activeCell") ?? "", moves) || undefined }), ...(given("sqref") === undefined ? {} : { sqref: movedList(given("sqref") ?? "", moves) || undefined }) } };
    case "col": {
      const span = movedSpan(Number(given("min")) - 1, Number(given("max")) - 1, COLUMNS, moves);
      return span ? { attributes: { min: String(span[0] + 1), max: String(Math.min(span[1], GRID_COLUMNS - 1) + 1) } } : { isGone: true };
    }
    case "brk": {
      const line = movedLine(Number(given("id")), around[around.length - 1]?.local === "colBreaks" ? COLUMNS : ROWS, moves);
      return line === undefined ? { isGone: true } : { attributes: { id: String(line) } };
    }
    case "filterColumn":
      return filterColumn(tag, around[around.length - 1], moves);
    case "formula":
    case "formula1":
    case "formula2":
      return { text: moved(seenFrom(text, shift)) };
    case "cfvo":
      return given("type") === "formula" || /^\$?[A-Z]/i.test(given("val") ?? "") ? { attributes: { val: moved(seenFrom(given("val") ?? "", shift)) } } : null;
    default:
      return null;
  }
}

/** Ranges and formulas of the extensions stand in elements of their own: sparklines, rules that read other sheets. */
function extensionChange({ around, tag, text }: SeenElement, moves: SheetMoves, moved: (formula: string) => string, shift: CellPlace | undefined): ElementChange | null {
  if (tag.local !== "sqref" && tag.local !== "f") return null;
  const after = tag.local === "sqref" ? movedList(text, moves) : moved(seenFrom(text, shift));
  const isLost = tag.local === "sqref" ? after === "" : /#REF!/.test(after) && !/#REF!/.test(text) && around[around.length - 1]?.local === "sparkline";
  if (isLost) throw new CannotMerge("The cells of a sparkline or of a rule of the extension are gone.");
  return { text: after };
}

function seenFrom(formula: string, shift: CellPlace | undefined): string {
  return shift ? shiftFormula(formula, shift.row, shift.column) : formula;
}

/** The place of a column in a filtered range. */
function filterColumn(tag: XmlTag, filter: XmlTag | undefined, moves: SheetMoves): ElementChange | null {
  const range = readRange((filter && attribute(filter, "ref")) ?? "");
  const after = range && movedRange(range, moves);
  if (!range || !after) return null;
  const column = movedLine(range.startColumn + Number(attribute(tag, "colId")), COLUMNS, moves);
  return column === undefined ? { isGone: true } : { attributes: { colId: String(column - after.startColumn) } };
}

/** How far the first cell that is left of a rule's ranges stands from the one as seen from which its formulas read, by the rule's number. */
function rulesSeenFrom(xml: string, part: string, moves: SheetMoves): Map<number, CellPlace> {
  const shifts = new Map<number, CellPlace>();
  let [rule, ranges] = [-1, ""];
  if (moves.length === 0) return shifts;
  walkXml(xml, part, {
    open(tag) {
      if (tag.local === "conditionalFormatting" || tag.local === "dataValidation") ranges = attribute(tag, "sqref") ?? "";
      if (!isRule(tag)) return;
      rule += 1;
      const listed = ranges.trim().split(/\s+/).flatMap((one) => (listedRanges(one).length > 0 ? [rangeOf(one)] : []));
      const [home] = listed;
      const left = listed.find((range) => movedRange(range, moves));
      if (!home || !left) return;
      const next = (from: number, to: number, along: typeof COLUMNS | typeof ROWS) => {
        for (let line = from; line <= to; line += 1) if (movedLine(line, along, moves) !== undefined) return line;
        return from;
      };
      const [row, column] = [next(left.startRow, left.endRow, ROWS) - home.startRow, next(left.startColumn, left.endColumn, COLUMNS) - home.startColumn];
      if (row !== 0 || column !== 0) shifts.set(rule, { row, column });
    },
  });
  return shifts;
}
