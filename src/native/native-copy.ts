import { cellAddress, cellsOf, readCell, readRange } from "../files/address";
import { type Archive, openArchive } from "../files/archive";
import type { ArchiveLimits } from "../files/archive-limits";
import type { Book, BookCell } from "../files/book";
import type { CellResult } from "../files/cell-result";
import { dropAddInReference } from "../files/drop-add-in-reference";
import { addSheets, freeName, sheetNames } from "../files/hand-over/add-sheet";
import { fromStored } from "../files/formula-text";
import type { CopyFacts } from "../files/hand-over/cover-lines";
import { coverPart } from "../files/hand-over/cover-part";
import { freezeTables } from "../files/hand-over/frozen-copy";
import { dropCalculationChain, PartEdits } from "../files/hand-over/part-edits";
import { type CellContent, setFormulas } from "../files/hand-over/set-formulas";
import { readBookOf } from "../files/read-book";
import { readWorkbookPart } from "../files/workbook-part";
import { Problem } from "../science/problem";
import { files } from "../words/files";
import { native as words, type WhyFrozen } from "../words/native";
import { type Others, writeOthers } from "./other-formulas";
import type { Draft } from "./draft";
import { draftPart, printedOf } from "./draft-part";
import { DroppedNames } from "./dropped-names";
import { FixedSpills } from "./fixed-spills";
import { isBeyondLimits } from "./formula-limits";
import { frozenDraft } from "./frozen-list";
import { frozenLooks } from "./frozen-looks";
import { nativeCover } from "./native-cover";
import { RULES } from "./rules";
import { type Calculate, type Calculated, ourFormulas, scratchValues, valuesOnly } from "./scratch";
import { Translator } from "./translator";
import { Workspace } from "./workspace";

/** A cell that holds a plain formula now, or stays a value. */
export interface NativeCell {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string | null;
  readonly spills: boolean;
}

export interface FrozenCell {
  readonly sheet: string;
  readonly address: string;
  /** The formula that it had. */
  readonly formula: string;
  readonly name: string;
  readonly why: WhyFrozen;
}

export interface NativeCopy {
  readonly file: Uint8Array;
  readonly translated: number;
  readonly frozen: readonly FrozenCell[];
}

/** How far a plain formula may be from ours, as a share of it. */
export const AGREEMENT = 1e-9;
/** What a sum whose parts cancel may leave by rounding alone, in any unit of a cell. */
export const ROUNDING = 1e-15;
const MOST_ROUNDS = 5;

/**
 * A copy of a calculated workbook file in which each ALGAL formula is the same calculation in plain spreadsheet formulas, or its value
 * where that cannot be. Every plain formula is calculated here before the copy is made: one that gives anything else than ours did
 * stays a value. `title`: of the original; `day`: "2026-01-31".
 * @throws Problem when the file cannot be read, or has no formula of ours
 */
export async function nativeCopy(original: Uint8Array, calculate: Calculate, about: CopyFacts, limits?: ArchiveLimits): Promise<NativeCopy> {
  const archive = await openArchive(original, limits);
  const workbook = await readWorkbookPart(archive);
  const read = await readBookOf(archive, workbook);
  const spills = new FixedSpills(read);
  const { book, changed } = spills.applied();
  const dropped = new DroppedNames({ names: workbook.names.map(({ name, ref }) => ({ name, ref: fromStored(ref) })) });
  if ([...ourFormulas(book)].length === 0) throw new Problem("value", files.nothingToFreeze);
  const parts = new PartEdits(archive);
  const taken = [...(await sheetNames(parts, workbook))];
  const name = (wanted: string): string => {
    const free = freeName(wanted, taken);
    taken.push(free);
    return free;
  };
  const names = { sources: name(words.sources.name), workings: name(words.workings.name), blocks: name(words.workings.blocks), frozen: name(words.frozen.name), cover: name(words.cover.name), account: (place: number) => freeName(`${words.workings.account} ${place + 1}`, taken) };
  const scratch = await scratchValues(book, calculate, (called) => RULES.get(called)?.kind === "block");

  const kept = new Set<string>();
  for (let round = 1; ; round += 1) {
    const attempt = translateAll(book, new Workspace(book, names), scratch, kept, dropped);
    const calculated = await calculate(bookOf(book, attempt.cells, attempt.workspace));
    const wrong = disagreeing(attempt.cells, attempt.workspace, new Map(calculated.map((sheet) => [sheet.name, sheet])));
    if (wrong.length > 0 && round < MOST_ROUNDS) {
      for (const key of wrong) kept.add(key);
      continue;
    }
    if (wrong.length > 0) throw new Error(`Formulas still differ: ${wrong.slice(0, 5).join(", ")}`);
    const others = await writeOthers(parts, workbook, book, { spills, changed, dropped, frozen: new Set(attempt.cells.map(({ sheet, address }) => keyOf(sheet, address))) });
    return write(archive, parts, workbook, attempt, calculated, names, { ...about, ...others });
  }
}

interface Attempt {
  readonly workspace: Workspace;
  readonly cells: readonly NativeCell[];
  readonly frozen: readonly FrozenCell[];
}

const keyOf = (sheet: string, address: string): string => `${sheet}!${address}`;

/** `kept`: cells whose plain formula was found to differ. */
function translateAll(book: Book, workspace: Workspace, scratch: Awaited<ReturnType<typeof scratchValues>>, kept: ReadonlySet<string>, dropped: DroppedNames): Attempt {
  const translator = new Translator(workspace, RULES, scratch);
  const cells: NativeCell[] = [];
  const frozen: FrozenCell[] = [];
  for (const { name: sheet, cells: stored } of book.sheets) {
    for (const [address, cell] of stored) {
      const { formula } = cell;
      if (formula === undefined) continue;
      const readsDropped = dropped.isRead(formula);
      if (!readsDropped && !/ALGAL\./i.test(formula)) continue;
      const freeze = (at: string, why: WhyFrozen, name = ""): void => {
        frozen.push({ sheet, address: at, formula, name, why });
        cells.push({ sheet, address: at, formula: null, spills: false });
      };
      const places = placesOf(address, cell);
      if (readsDropped) {
        for (const at of places.flat()) freeze(at, "name");
        continue;
      }
      const translation = translator.translate(sheet, address, cell);
      if (translation.kind === "frozen") {
        for (const at of places.flat()) freeze(at, translation.why, translation.name);
      } else if (translation.kind === "formula") {
        if (isBeyondLimits(translation.formula)) for (const at of places.flat()) freeze(at, "tooLong");
        else if (places.flat().some((at) => kept.has(keyOf(sheet, at)))) for (const at of places.flat()) freeze(at, translation.passesErrors ? "passed" : "differs");
        else cells.push({ sheet, address, formula: translation.formula, spills: true });
      } else if (translation.together && places.flat().some((at) => kept.has(keyOf(sheet, at)))) {
        for (const at of places.flat()) freeze(at, "differs");
      } else {
        places.forEach((row, r) => row.forEach((at, c) => {
          const text = translation.formulas[r]?.[c];
          if (text === undefined || text === null) freeze(at, workspace.showsError(sheet, at) ? "error" : "argument");
          else if (isBeyondLimits(text)) freeze(at, "tooLong");
          else if (kept.has(keyOf(sheet, at))) freeze(at, translation.passesErrors ? "passed" : "differs");
          else cells.push({ sheet, address: at, formula: text, spills: false });
        }));
      }
    }
  }
  return { workspace, cells, frozen };
}

/** The cells of a formula's answer, row by row. */
function placesOf(address: string, cell: BookCell): string[][] {
  const range = readRange(cell.spill ?? address);
  if (!range) return [[address]];
  const rows: string[][] = [];
  for (const { row, column } of cellsOf(range)) (rows[row - range.startRow] ??= []).push(cellAddress(row, column));
  return rows;
}

/** The copy as a book: only the formulas that are new are calculated. */
function bookOf(book: Book, cells: readonly NativeCell[], workspace: Workspace): Book {
  const sheets = valuesOnly(book);
  const byName = new Map(sheets.map((sheet) => [sheet.name, sheet]));
  const original = new Map(book.sheets.map((sheet) => [sheet.name, sheet.cells]));
  for (const { sheet, address, formula, spills } of cells) {
    if (formula === null) continue;
    const range = spills ? readRange(original.get(sheet)?.get(address)?.spill ?? address) : undefined;
    if (range) for (const place of cellsOf(range)) byName.get(sheet)?.cells.delete(cellAddress(place.row, place.column));
    byName.get(sheet)?.cells.set(address, { value: null, formula });
  }
  const drafts = draftsOf(workspace).map(({ name, cells: drafted }) => ({
    name,
    cells: new Map([...drafted].map(([address, { content }]): [string, BookCell] => [address, typeof content === "object" ? { value: null, formula: content.formula } : { value: content }])),
  }));
  return { ...book, sheets: [...sheets, ...drafts] };
}

const draftsOf = ({ sources, workings, blocks, accounts }: Workspace): Draft[] => [workings, blocks, ...accounts, sources.draft];

/** The cells whose plain formula gives anything else than ours. */
function disagreeing(cells: readonly NativeCell[], workspace: Workspace, calculated: ReadonlyMap<string, Calculated>): string[] {
  return cells.flatMap(({ sheet, address, formula, spills }) => {
    if (formula === null) return [];
    const range = readRange(spills ? (calculated.get(sheet)?.spills.get(address) ?? address) : address);
    const places = range ? [...cellsOf(range)] : [readCell(address) ?? { row: 0, column: 0 }];
    const fits = places.every(({ row, column }) => agrees(workspace.valueAt(sheet, row, column), calculated.get(sheet)?.values.get(cellAddress(row, column)) ?? ""));
    return fits ? [] : [keyOf(sheet, address)];
  });
}

function agrees(ours: unknown, theirs: CellResult): boolean {
  if (typeof theirs === "object") return false;
  if (typeof ours === "number" && typeof theirs === "number") return Math.abs(ours - theirs) <= Math.max(ROUNDING, AGREEMENT * Math.max(Math.abs(ours), Math.abs(theirs)));
  return (ours ?? "") === theirs;
}

async function write(archive: Archive, parts: PartEdits, workbook: Awaited<ReturnType<typeof readWorkbookPart>>, { workspace, cells, frozen }: Attempt, calculated: readonly Calculated[], names: { readonly frozen: string; readonly cover: string }, about: CopyFacts & Others): Promise<NativeCopy> {
  const results = new Map(calculated.map(({ name, values }) => [name, values]));
  const looks = await frozenLooks(parts, workbook, cells);
  for (const { name, part } of workbook.sheets) {
    const contents = new Map(cells.filter(({ sheet }) => sheet === name).map(({ address, formula, spills }): [string, CellContent] => [address, { formula, spills, ...resultOf(workspace, name, address), ...(formula === null ? looks(name, address) : {}) }]));
    if (contents.size > 0) parts.set(part, setFormulas(await parts.text(part), part, contents));
    await freezeTables(archive, parts, part);
  }
  await dropCalculationChain(parts, workbook);
  const listed = [...frozen, ...workspace.frozen.map(({ sheet, cells: at, text, why }) => ({ sheet, address: at, formula: text, name: "", why }))];
  const drafts = draftsOf(workspace).filter(({ cells: filled }, place) => place > 1 || filled.size > (place === 0 ? FIXED_CELLS.workings : FIXED_CELLS.blocks));
  if (listed.length > 0) drafts.push(frozenDraft(names.frozen, listed, workspace));
  const translated = cells.filter(({ formula }) => formula !== null).length;
  await addSheets(parts, workbook, [
    { name: names.cover, part: "cover", place: "first", content: (formats, namespace) => coverPart(nativeCover(about, cells, listed, { sheets: drafts.map(({ name }) => name), sources: workspace.sources.draft.name }), formats, namespace) },
    ...drafts.map((draft) => ({ name: draft.name, part: "workings", place: "last" as const, printed: printedOf(draft), content: (formats: Parameters<typeof draftPart>[2], namespace: string) => draftPart(draft, ownResults(draft, results.get(draft.name)), formats, namespace) })),
  ]);
  await dropAddInReference(archive, parts);
  return { file: await archive.withParts(parts.changed(), parts.dropped), translated, frozen };
}

/** Titles and headings alone. */
const FIXED_CELLS = { workings: 6, blocks: 2 };

function resultOf(workspace: Workspace, sheet: string, address: string): { result?: CellResult } {
  const place = readCell(address);
  const value = place ? workspace.valueAt(sheet, place.row, place.column) : null;
  if (value === null) return { result: "" };
  return { result: typeof value === "string" && /^#[A-Z]/.test(value) ? { code: value } : value };
}

/** What the formulas of a draft gave, and the cells that they answer for. */
function ownResults(draft: Draft, values: Calculated["values"] | undefined): Map<string, CellResult> {
  return new Map([...(values ?? [])].filter(([address]) => typeof draft.cells.get(address)?.content === "object" || !draft.cells.has(address)));
}
