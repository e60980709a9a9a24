import { cellAddress, cellsOf, sheetReference } from "../files/address";
import type { Book } from "../files/book";
import { native as words, type WhyFrozen } from "../words/native";
import { Draft } from "./draft";
import type { GivenRange, GivenValue } from "./given";
import { absolute, type SheetRange } from "./references";
import type { BlockAnswer } from "./rule";
import { Sources } from "./sources";

export interface SheetNames {
  readonly sources: string;
  readonly workings: string;
  readonly blocks: string;
  /** Names for the sheets of single accounts, one after the other. */
  readonly account: (place: number) => string;
}

/** Rows of a block; a formula is without its "=". */
export type BlockContents = readonly (readonly (number | string | { readonly formula: string })[])[];

/** What was left as a value on the sheets of workings. */
export interface FrozenBlock {
  readonly sheet: string;
  readonly cells: string;
  readonly text: string;
  readonly why: WhyFrozen;
}

/** The workbook at the hand-over, and the sheets that come with its copy. */
export class Workspace {
  readonly sources: Sources;
  readonly workings: Draft;
  readonly blocks: Draft;
  readonly accounts: Draft[] = [];
  readonly frozen: FrozenBlock[] = [];
  private readonly values: Map<string, Map<string, GivenValue>>;
  private readonly steps = new Map<string, string>();
  private readonly known = new Map<string, BlockAnswer>();
  private blockColumn = 0;

  constructor(readonly book: Book, private readonly names: SheetNames) {
    this.sources = new Sources(names.sources);
    this.workings = new Draft(names.workings, [22, 26, 60, 18]);
    this.workings.put(0, 0, words.workings.title, "title");
    this.workings.put(1, 0, words.workings.what, "quiet");
    this.workings.putRow(3, words.workings.headings, "heading");
    this.blocks = new Draft(names.blocks, [], { headings: [4, 5] });
    this.blocks.put(0, 0, words.workings.blocksTitle, "title");
    this.blocks.put(1, 0, words.workings.blocksWhat, "quiet");
    this.values = new Map(book.sheets.map(({ name, cells }) => [name, new Map([...cells].map(([address, { value }]) => [address, value]))]));
  }

  valueAt(sheet: string, row: number, column: number): GivenValue {
    return this.values.get(sheet)?.get(cellAddress(row, column)) ?? null;
  }

  /** Whether a cell showed an error at the hand-over. */
  showsError(sheet: string, address: string): boolean {
    const value = this.values.get(sheet)?.get(address);
    return typeof value === "string" && /^#[A-Z]/.test(value);
  }

  /** The cells that a reference stands for. */
  given(reference: SheetRange): GivenRange {
    const { sheet, range } = reference;
    const own = sheetReference(sheet);
    const rows: { text: string; value: GivenValue; literal: false }[][] = [];
    for (const { row, column } of cellsOf(range)) {
      const line = (rows[row - range.startRow] ??= []);
      line.push({ text: `${own}!${cellAddress(row, column)}`, value: this.valueAt(sheet, row, column), literal: false });
    }
    return { rows, text: absolute(reference) };
  }

  /** A step on the sheet of workings; the same step of the same formula stands there once. */
  step(forCell: string, name: string, label: string, formula: string, array = false): string {
    const key = `${name} ${formula}`;
    const known = this.steps.get(key);
    if (known !== undefined) return known;
    const row = this.workings.nextRow;
    this.workings.putRow(row, [forCell, name, label]);
    const at = cellAddress(row, 3);
    const cell = this.workings.put(row, 3, array ? { formula, array: at } : { formula });
    this.steps.set(key, cell);
    return cell;
  }

  /** A block of formulas or values beside the others. `contents`: its rows, or what gives them from the addresses of its own cells. */
  block(title: string, note: string, contents: BlockContents | ((cell: BlockAnswer["cell"]) => BlockContents)): BlockAnswer {
    const top = 5;
    const left = this.blockColumn;
    const cell: BlockAnswer["cell"] = (row, column) => this.blocks.address(top + row, left + column);
    const rows = typeof contents === "function" ? contents(cell) : contents;
    const columns = Math.max(1, ...rows.map((row) => row.length));
    this.blockColumn += columns + 1;
    this.blocks.put(3, left, title, "heading");
    this.blocks.put(4, left, note, "quiet");
    rows.forEach((row, r) => row.forEach((content, c) => this.blocks.put(top + r, left + c, content)));
    return {
      text: this.blocks.range(top, left, top + rows.length - 1, left + columns - 1),
      rows: rows.length,
      columns,
      cell,
    };
  }

  /** The block of that key, made when it is first asked for. */
  blockOnce(key: string, make: () => BlockAnswer): BlockAnswer {
    const block = this.known.get(key) ?? make();
    this.known.set(key, block);
    return block;
  }

  /** An array formula over a block of its own. */
  arrayBlock(title: string, note: string, formula: string, rows: number, columns: number): BlockAnswer {
    const answer = this.block(title, note, Array.from({ length: rows }, () => Array.from({ length: columns }, () => "")));
    const [first = "", last = ""] = (answer.text.split("!").pop() ?? "").replace(/\$/g, "").split(":");
    const place = /^([A-Z]+)(\d+)$/.exec(first);
    if (place) this.blocks.cells.set(first, { content: { formula, array: last === "" ? first : `${first}:${last}` }, look: "text" });
    return answer;
  }

  /** A sheet for one account. */
  account(widths: readonly number[]): Draft {
    const draft = new Draft(this.names.account(this.accounts.length), widths, { headings: [4, 5], columns: widths.length });
    this.accounts.push(draft);
    return draft;
  }
}
