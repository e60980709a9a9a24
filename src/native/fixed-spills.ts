import { cellAddress, cellsOf, rangeAddress, readCell, readRange } from "../files/address";
import type { Book } from "../files/book";
import { formulaTokens, type FormulaToken, isCall, nextPlace } from "../files/formula-tokens";
import { sheetNamed } from "./references";

const OURS = /ALGAL\./i;
const HAS_SPILL = /#|ANCHORARRAY/i;

/**
 * Formulas read "all that spills from A1" as A1#. Nothing of ours spills in a copy, for each cell has its own formula or value: such a
 * reference becomes the range that was filled at the hand-over. What spills from other formulas goes on to spill.
 */
export class FixedSpills {
  private readonly ranges = new Map<string, string>();

  constructor(private readonly book: Book) {
    for (const { name, cells } of book.sheets) {
      for (const [address, { formula, spill }] of cells) if (formula !== undefined && OURS.test(formula)) this.ranges.set(keyOf(name, address), spill ?? address);
    }
  }

  /** The formula of a cell of that sheet with these references as ranges; the same text where it has none. */
  text(formula: string, sheet: string): string {
    if (!HAS_SPILL.test(formula)) return formula;
    const tokens = formulaTokens(formula);
    let text = "";
    for (let at = 0; at < tokens.length; at += 1) {
      const called = isCall(tokens, at) && /^(?:_xlfn\.)?ANCHORARRAY$/i.test(tokens[at]?.text ?? "");
      const close = called ? tokens.findIndex((token, place) => place > at && token.kind === "sign" && token.text === ")") : -1;
      const inside = called && close > 0 ? tokens.slice(nextPlace(tokens, at) + 1, close) : null;
      const range = inside ? this.rangeOf(inside.filter(({ kind }) => kind !== "space"), sheet) : null;
      if (range !== null) {
        text += range;
        at = close;
        continue;
      }
      const marked = tokens[at + 1]?.text === "#" ? this.rangeOf(cellBefore(tokens, at), sheet) : null;
      if (marked === null) text += tokens[at]?.text ?? "";
      else {
        // The sheet's name stands already.
        text += marked.slice(marked.lastIndexOf("!") + 1);
        at += 1;
      }
    }
    return text;
  }

  /** The book with all such references as ranges; `changed`: cells of other formulas that have one. */
  applied(): { readonly book: Book; readonly changed: ReadonlyMap<string, ReadonlyMap<string, string>> } {
    const changed = new Map<string, Map<string, string>>();
    const sheets = this.book.sheets.map((sheet) => ({
      ...sheet,
      cells: new Map([...sheet.cells].map(([address, cell]) => {
        if (cell.formula === undefined || !HAS_SPILL.test(cell.formula)) return [address, cell];
        const formula = this.text(cell.formula, sheet.name);
        // Cells that share one formula are written one by one as soon as one of them is.
        if (!OURS.test(cell.formula) && (formula !== cell.formula || /ANCHORARRAY/i.test(cell.formula))) {
          const known = changed.get(sheet.name) ?? new Map<string, string>();
          changed.set(sheet.name, known.set(address, formula));
        }
        return [address, { ...cell, formula }];
      })),
    }));
    return { book: { ...this.book, sheets, names: this.book.names.map(({ name, ref }) => ({ name, ref: this.text(ref, "") })) }, changed };
  }

  /** "Log!$B$1:$C$9" for the tokens of a single cell that one of our answers spills from. */
  private rangeOf(tokens: readonly FormulaToken[], sheet: string): string | null {
    const written = tokens.map(({ text }) => text).join("");
    const cut = written.lastIndexOf("!");
    const own = cut < 0 ? sheet : sheetNamed(written.slice(0, cut), this.book);
    const address = written.slice(cut + 1);
    const cell = readCell(address.replace(/\$/g, ""));
    const spill = cell && own !== null ? this.ranges.get(keyOf(own, cellAddress(cell.row, cell.column))) : undefined;
    const range = spill === undefined ? undefined : readRange(spill);
    if (!range) return null;
    const dollars = address.includes("$") ? (text: string): string => text.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2") : (text: string): string => text;
    return `${written.slice(0, cut + 1)}${dollars(rangeAddress(range))}`;
  }
}

const keyOf = (sheet: string, address: string): string => `${sheet.toLowerCase()}!${address}`;

/** The tokens of the reference that ends here. */
function cellBefore(tokens: readonly FormulaToken[], at: number): readonly FormulaToken[] {
  return tokens[at - 1]?.text === "!" && at >= 2 ? tokens.slice(at - 2, at + 1) : tokens.slice(at, at + 1);
}

/** Addresses of all cells of a range, "B2:C3". */
export const addressesIn = (range: string): string[] => {
  const read = readRange(range);
  return read ? [...cellsOf(read)].map(({ row, column }) => cellAddress(row, column)) : [];
};
