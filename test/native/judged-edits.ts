import { cellAddress } from "../../src/files/address";
import type { Book, BookCell } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import type { NewBook } from "../../src/files/new-book-model";
import { readBook } from "../../src/files/read-book";
import { BUDGET_N, BUDGET_P } from "../../src/functions/budget-functions";
import type { Engine } from "../../src/host/engine/engine";
import { Problem } from "../../src/science/problem";
import { sheetOfRows } from "./entry-sheets";
import { addressOf, type Tank, type TankEdit, withEdit } from "./edited-tanks";
import { type Pair, pairOf } from "./judging";

/** The two balances of a tank in a workbook, and its copy in plain formulas. */
export async function copyOfTank(name: string, { log, setUp, period }: Tank, engine: Engine): Promise<Pair> {
  const place = `Log!A1:${cellAddress(log.length - 1, (log[0]?.length ?? 1) - 1)}`;
  const balance = (nutrient: string): Map<string, BookCell> => new Map([["A1", { value: null, formula: `ALGAL.BUDGET_${nutrient}(${place},'Set up'!A1:B${setUp.length},"${period}")` }]]);
  const book: NewBook = { sheets: [sheetOfRows("Log", log), sheetOfRows("Set up", setUp), { name: "N", cells: balance("N") }, { name: "P", cells: balance("P") }], names: [], date1904: false };
  return pairOf(name, await writeBook(book), engine);
}

/** The copy as somebody left it. */
export async function editedCopy(copy: Uint8Array, { cells }: TankEdit): Promise<Uint8Array> {
  const book = await readBook(copy);
  for (const edit of cells) {
    const sheet = book.sheets.find(({ name }) => name === edit.sheet);
    if (edit.value === "") sheet?.cells.delete(addressOf(edit));
    else sheet?.cells.set(addressOf(edit), { value: edit.value });
  }
  return writeBook(book as NewBook);
}

export interface EditJudged {
  /** Cells that show what our function gives for the edited inputs. */
  right: number;
  /** Cells in error, or with a sentence that says that something was changed. */
  told: number;
  /** "N!I3: 2 (ours 3)" */
  wrong: string[];
}

const ERROR = /^#[A-Z]/;
const SENTENCE = /^(?:An entry or a coefficient was changed after|The log or its set-up was changed)/;

/** Holds what another program shows of an edited copy against our function on the edited log and set-up. */
export function judgeEdit(tank: Tank, edit: TankEdit, before: Book, theirs: Book): EditJudged {
  const judged: EditJudged = { right: 0, told: 0, wrong: [] };
  const { log, setUp } = withEdit(tank, edit);
  for (const [nutrient, ours] of [["N", BUDGET_N], ["P", BUDGET_P]] as const) {
    const wanted = rowsOrError(() => ours(log as unknown[][], setUp as unknown[][], tank.period));
    const shown = theirs.sheets.find(({ name }) => name === nutrient);
    const old = before.sheets.find(({ name }) => name === nutrient);
    for (const address of old?.cells.keys() ?? []) {
      const [column, row] = [address.charCodeAt(0) - 65, Number(address.slice(1)) - 1];
      if (row === 0) continue;
      const value = shown?.cells.get(address)?.value ?? "";
      const mine = wanted?.[row]?.[column];
      const size = Math.max(0, ...(wanted?.[row] ?? []).slice(2, 10).map((figure) => Math.abs(Number(figure))));
      const isSame = typeof mine === "number" && typeof value === "number" ? Math.abs(mine - value) <= 1e-9 * (column > 1 ? size : Math.abs(mine)) : mine === value;
      if (isSame) judged.right += 1;
      else if (typeof value === "string" && (ERROR.test(value) || SENTENCE.test(value))) judged.told += 1;
      else judged.wrong.push(`${nutrient}!${address}: ${String(value).slice(0, 60)} (ours ${String(mine).slice(0, 60)})`);
    }
  }
  return judged;
}

function rowsOrError(ours: () => unknown[][]): unknown[][] | null {
  try {
    return ours();
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}
