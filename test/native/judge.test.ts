import fs from "node:fs";
import path from "node:path";
import { newEngine } from "../../src/cli/engine";
import type { Book } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { seededRandom } from "../../src/science/seeded";
import { host } from "../../src/words/host";
import type { Entry } from "./entry-sheets";
import { TRANSLATED } from "./function-arguments";
import { type GeneratedLog, generatedLog } from "./generated-logs";
import { calculated, cellOf, compared, edited, FORBIDDEN, ourCells, type Pair, pairOf, recalculatedByOffice } from "./judging";

/**
 * The independent judge: LibreOffice calculates the copies with plain formulas anew, and every cell has to show what ours showed. A
 * dozen invented logs in `npm test`, more with JUDGED_LOGS, as `npm run test:engines` sets it.
 */
const LOGS = Number(process.env.JUDGED_LOGS ?? 12);
const FIRST_SEED = 1;
/** A log that once found something: a blank area beside a light that is refused. */
const FOUND = [174];
const SEEDS = [...new Set([...Array.from({ length: LOGS }, (_, at) => FIRST_SEED + at), ...FOUND])];
const SAMPLES = path.join(__dirname, "../../samples");

interface Edited {
  readonly entries: readonly (Entry & { readonly to: number | string })[];
  readonly ours: Book;
  readonly copy: Uint8Array;
}

const pairs = new Map<string, Pair>();
const logs = new Map<string, GeneratedLog>();
const followed = new Map<string, Edited>();
const spoilt = new Map<string, Edited>();
let theirs = new Map<string, Book>();
let copies = new Map<string, Book>();
let started = 0;

beforeAll(async () => {
  started = Date.now();
  const engine = newEngine();
  for (const { file } of host.samples) pairs.set(file, await pairOf(file, new Uint8Array(fs.readFileSync(path.join(SAMPLES, file))), engine));
  for (const seed of SEEDS) {
    const [name, log] = [`log-${seed}`, generatedLog(seed)];
    const pair = await pairOf(name, await writeBook(log.book), engine);
    logs.set(name, log);
    pairs.set(name, pair);
    if (!log.follows) continue;
    for (const [kept, change] of [[followed, anotherNumber], [spoilt, badEntry]] as const) {
      const entries = log.entries.map((entry, place) => ({ ...entry, to: change(entry, seededRandom(1000 * seed + place)()) }));
      const changes = entries.map(({ sheet, address, to }) => ({ sheet, address, value: to }));
      kept.set(name, { entries, ours: await readBook(await calculated(await edited(pair.original, changes), engine)), copy: await edited(pair.copy.file, changes) });
    }
  }
  engine.dispose();
  const named = (kind: string, files: ReadonlyMap<string, Uint8Array>): [string, Uint8Array][] => [...files].map(([name, file]) => [`${kind} ${name}`, file]);
  const files = new Map([...pairs].map(([name, { copy }]) => [name, copy.file]));
  const copyOf = (some: ReadonlyMap<string, Edited>): Map<string, Uint8Array> => new Map([...some].map(([name, { copy }]) => [name, copy]));
  theirs = await recalculatedByOffice(Object.fromEntries([...named("as it was", files), ...named("followed", copyOf(followed)), ...named("spoilt", copyOf(spoilt))]));
  copies = new Map(await Promise.all([...files].map(async ([name, file]) => [name, await readBook(file)] as const)));
}, 3_600_000);

const inOffice = (name: string): Book => theirs.get(name) as Book;
/** Another number that the entry may be. */
function anotherNumber({ kind, value, most }: Entry, random: number): number {
  if (kind.kind === "reading") return Number((most * (0.1 + 0.8 * random)).toPrecision(2));
  const other = kind.from + random * (kind.to - kind.from);
  return kind.whole ? Math.round(other) : Number((value + 0.5 * (other - value)).toPrecision(4));
}
const BAD = [-3, "a lot", "1/2", "2-3", 1e15, 0, 1.5, 150, 6000, -0.001] as const;
const badEntry = (_entry: Entry, random: number): number | string => BAD[Math.floor(random * BAD.length)] as number | string;

test("every cell with a plain formula shows what ours showed", () => {
  const [found, wrong]: [Record<string, number>, string[]] = [{ workbooks: pairs.size, translated: 0, frozen: 0 }, []];
  for (const [name, { ours, copy }] of pairs) {
    const { translated, refused, wrong: other } = compared(ours, copies.get(name) as Book, inOffice(`as it was ${name}`));
    expect([name, translated]).toEqual([name, copy.translated]);
    found.translated = (found.translated ?? 0) + translated;
    found.frozen = (found.frozen ?? 0) + copy.frozen.length;
    wrong.push(...[...refused, ...other].map((line) => `${name} ${line}`));
  }
  process.stdout.write(`${Object.entries({ ...found, disagreements: wrong.length, seconds: Math.round((Date.now() - started) / 1000) }).map(([what, count]) => `${count} ${what}`).join(", ")}\n`);
  expect(wrong).toEqual([]);
});

test("no formula needs the add-in or a function that is newer than those programs", () => {
  for (const [name, book] of copies) {
    const formulas = book.sheets.flatMap(({ cells }) => [...cells.values()].flatMap(({ formula }) => (formula === undefined ? [] : [formula])));
    expect([name, formulas.filter((formula) => FORBIDDEN.test(formula))]).toEqual([name, []]);
  }
});

test("no formula was kept as a value because it differed, and each function occurs", () => {
  const kept = [...pairs].flatMap(([name, { copy }]) => copy.frozen.filter(({ why }) => why === "differs" || why === "unknown" || why === "argument").map(({ sheet, address, formula, why }) => `${name} ${sheet}!${address} ${why} ${formula}`));
  expect(kept).toEqual([]);
  const formulas = [...pairs.values()].flatMap(({ ours }) => ours.sheets.flatMap(({ cells }) => [...cells.values()].flatMap(({ formula }) => formula ?? [])));
  expect(Object.keys(TRANSLATED).filter((name) => !formulas.some((formula) => formula.includes(`ALGAL.${name}(`)))).toEqual([]);
});

test("another number in the log gives what our functions give with it", () => {
  const wrong: string[] = [];
  let moved = 0;
  for (const [name, { ours, copy, entries }] of followed) {
    const before = pairs.get(name)?.ours as Book;
    const { refused, wrong: other } = compared(ours, copies.get(name) as Book, inOffice(`followed ${name}`));
    wrong.push(...[...refused, ...other].map((line) => `${name} ${line}`));
    expect(entries.length).toBeGreaterThan(0);
    expect(copy.length).toBeGreaterThan(0);
    moved += [...ourCells(ours)].filter(({ sheet, address }) => cellOf(ours, sheet, address)?.value !== cellOf(before, sheet, address)?.value).length;
  }
  expect(wrong).toEqual([]);
  expect(moved).toBeGreaterThan(followed.size * 5);
});

test("a bad entry gives no number that ours does not give", () => {
  const wrong: string[] = [];
  let refusals = 0;
  for (const [name, { ours }] of spoilt) {
    const { refused, wrong: other } = compared(ours, copies.get(name) as Book, inOffice(`spoilt ${name}`));
    wrong.push(...other.map((line) => `${name} ${line}`));
    refusals += refused.length;
    refusals += [...ourCells(ours)].filter(({ sheet, address }) => String(cellOf(ours, sheet, address)?.value).startsWith("#")).length;
  }
  expect(wrong).toEqual([]);
  expect(refusals).toBeGreaterThan(spoilt.size * 5);
});
