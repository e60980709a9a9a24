import { newEngine } from "../../src/cli/engine";
import type { Book } from "../../src/files/book";
import { readBook } from "../../src/files/read-book";
import { editOf, type Tank, tankOf, type TankEdit } from "./edited-tanks";
import { copyOfTank, editedCopy, judgeEdit } from "./judged-edits";
import { recalculatedByOffice } from "./judging";

/**
 * What a copy shows after somebody edited it, calculated by LibreOffice: what our function gives for the edited log and set-up, or an error
 * or a sentence. One edit of each kind; more with JUDGED_EDITS.
 */
const EDITS = Number(process.env.JUDGED_EDITS ?? 29);
const A_TANK = 7;
/** Tanks of the generator whose log our function can read. */
const FIRST = 1;

interface Case {
  readonly tank: Tank;
  readonly edit: TankEdit;
  readonly before: Book;
}
const cases = new Map<string, Case>();
type Judged = Case & { readonly name: string } & ReturnType<typeof judgeEdit>;
let judged: readonly Judged[] = [];

beforeAll(async () => {
  const engine = newEngine();
  const files: Record<string, Uint8Array> = {};
  for (let seed = FIRST, made = 0; made < EDITS; seed += 1) {
    const tank = tankOf(seed);
    const { copy } = await copyOfTank(`tank-${seed}`, tank, engine);
    if (copy.frozen.length > 0) continue;
    const before = await readBook(copy.file);
    const put = async (name: string, edit: TankEdit): Promise<void> => {
      cases.set(name, { tank, edit, before });
      files[name] = await editedCopy(copy.file, edit);
    };
    await put(`${seed}-as-it-was`, { what: "nothing", cells: [] });
    for (let place = 0; place < A_TANK && made < EDITS; place += 1, made += 1) {
      const edit = editOf(tank, 1000 * seed + place, made);
      if (edit.cells.length > 0) await put(`${seed}-${place}`, edit);
    }
  }
  engine.dispose();
  const theirs = await recalculatedByOffice(files);
  judged = [...cases].map(([name, one]) => ({ name, ...one, ...judgeEdit(one.tank, one.edit, one.before, theirs.get(name) as Book) }));
}, 600_000);

test("no cell of an edited copy shows an old or a wrong figure", () => {
  expect(judged.flatMap(({ name, edit, wrong }) => wrong.map((line) => `${name}, ${edit.what}: ${line}`))).toEqual([]);
});

test("a copy that nobody edited shows every figure and every verdict", () => {
  const untouched = judged.filter(({ edit }) => edit.cells.length === 0);
  expect(untouched.length).toBeGreaterThan(2);
  expect(untouched.filter(({ told }) => told > 0).map(({ name }) => name)).toEqual([]);
});

test("the figures follow other numbers, and tell nothing once entries are moved, added, cleared or refused", () => {
  const sum = (whats: readonly string[]): { right: number; told: number } => judged.filter(({ edit }) => whats.includes(edit.what)).reduce((all, { right, told }) => ({ right: all.right + right, told: all.told + told }), { right: 0, told: 0 });
  const followed = sum(["another number", "several other numbers", "another number in the set-up"]);
  expect(followed.right).toBeGreaterThan(50);
  const gone = sum(["an entry moved to another row", "an entry cleared", "a row below", "a row of the set-up cleared", "a day cleared"]);
  expect(gone.told).toBeGreaterThan(20);
  expect(gone.right).toBeLessThan(gone.told);
});
