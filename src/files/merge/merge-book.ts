import { Problem } from "../../science/problem";
import { openArchive } from "../archive";
import { dropCalculationChain, PartEdits } from "../hand-over/part-edits";
import { OFFICE } from "../package-part";
import { addLink, addPart, freePart } from "../part-links";
import { type ReadWorkbook, readWorkbook } from "../read-workbook";
import { SpillMarkBook } from "../spill-marks";
import { readWorkbookPart, type WorkbookPart } from "../workbook-part";
import { answersToWrite, type PlacedVersions } from "./answers-to-write";
import { calculateWhenOpened } from "./calculate-when-opened";
import { CannotMerge } from "./cannot-merge";
import type { LineMove } from "./follow/line-move";
import { movedBook, withFollowed } from "./follow/moved-book";
import { movedFile } from "./follow/moved-file";
import { type MergedCells, mergeCells } from "./merge-cells";
import { type MergeContext, partOf } from "./merge-context";
import { mergeNames } from "./merge-names";
import { mergeSheetAspects } from "./merge-sheet";
import { mergeTabs } from "./merge-tabs";
import { mergeXmlParts } from "./merge-xml-parts";
import { renamedHeadings } from "./follow/renamed-headings";
import { MergedStyles } from "./merged-styles";
import { referToAddIn } from "./refer-to-add-in";
import { type PlacedBook, sheetOf } from "./placed-book";
import { inStrictEdition, isStrict } from "./strict-edition";
import { refuseGuesses } from "./refuse-guesses";

/** A file that the grid took in, what it made of it, and what it holds now. */
export interface ToMerge {
  readonly original: Uint8Array;
  readonly before: PlacedBook;
  readonly now: PlacedBook;
  /** Rows and columns that were put in or taken out since, the latest last. */
  readonly moves?: readonly LineMove[];
  /** Ids of the sheets in which rows or columns went to another place, which is not followed. */
  readonly shifted: ReadonlySet<string>;
}

/** The new file; or null where it cannot be made without a guess, and what of the original a file written anew would not hold. */
export interface Merged {
  readonly file: Uint8Array | null;
  /** Why there is no file; "" where there is one. For whoever looks into it, not for a screen. */
  readonly reason: string;
  readonly unshown: ReadWorkbook["unshown"];
}

/**
 * The original file with what was changed in the grid. A part in which nothing changed keeps its packed bytes, and in a sheet only
 * what changed is written: cells, widths, rules. Without any change it is the very same file. Nothing is guessed: where a change
 * would leave what the grid does not know in the wrong place there is no file.
 */
export async function mergeBook(whole: ToMerge): Promise<Merged> {
  const read = await readWorkbook(whole.original);
  try {
    const followed = await follow(whole, read);
    return { file: await merged(followed, followed.original === whole.original ? read : await readWorkbook(followed.original)), reason: "", unshown: read.unshown };
  } catch (error) {
    // A sentence of a part that cannot be written, such as one in an unusual encoding.
    if (error instanceof CannotMerge || error instanceof Problem) return { file: null, reason: error.message, unshown: read.unshown };
    throw error;
  }
}

/** The file and what the grid made of it, with what moved in its new place and with the sheets' new names, or that they are gone, in formulas. */
async function follow(whole: ToMerge, read: ReadWorkbook): Promise<ToMerge> {
  const { before, moves = [], now, original, shifted } = whole;
  await refuseGuesses({ before, now, read, original, shifted, moves });
  const name = (id: string) => sheetOf(before, id)?.name.toLowerCase() ?? "";
  const ofSheets = before.ids.map((id) => [id, moves.filter(({ sheetId }) => sheetId === id)] as const).filter(([, list]) => list.length > 0);
  const renamed = before.ids.flatMap((id) => {
    const [was, is] = [sheetOf(before, id), sheetOf(now, id)];
    return was && is && was.name !== is.name ? [[name(id), is.name] as const] : [];
  });
  const stands = new Set(now.book.sheets.map((sheet) => sheet.name.toLowerCase()));
  const gone = new Set(before.ids.filter((id) => !now.ids.includes(id) && !stands.has(name(id))).map(name));
  const lines = { moves: new Map(ofSheets.map(([id, list]) => [name(id), list])), names: new Map(renamed), isGone: (sheet: string) => gone.has(sheet) };
  const columns = renamedHeadings(ofSheets.length > 0 ? movedBook(before, lines) : before, now);
  if (ofSheets.length + renamed.length + gone.size + columns.size === 0) return whole;
  const changes = { ...lines, columns };
  const moved = movedBook(before, changes);
  return { ...whole, original: await movedFile(original, changes), before: moved, now: { ...now, book: withFollowed(before, moved, now) } };
}

async function merged({ before, now, original }: ToMerge, read: ReadWorkbook): Promise<Uint8Array> {
  const archive = await openArchive(original);
  const workbook = await readWorkbookPart(archive);
  if (workbook.sheets.length !== before.ids.length) throw new CannotMerge("The file has other sheets than the grid took in.");
  const parts = new PartEdits(archive);
  const marks = await SpillMarkBook.of(parts, workbook);
  const context: MergeContext = { archive, workbook, parts, marks, before, now, styles: await stylesOf(parts, workbook, now) };
  let formulasChanged = before.ids.some((id) => !now.ids.includes(id));
  const sheets = versionsOf(before, now, read);
  const { isKept, taken } = answersToWrite(sheets, now.book.sheets.some(({ hiddenRows }) => (hiddenRows?.length ?? 0) > 0));
  let isUnsure = isKept;
  for (const sheet of sheets) {
    const done = await mergeSheet(context, sheet, taken.get(sheet.id) ?? new Set());
    formulasChanged ||= done.formulasChanged;
    isUnsure ||= done.isUnsure;
  }
  const places = await mergeTabs(context);
  await mergeNames(context, places);
  await mergeXmlParts(context);
  await writeStyles(context);
  await marks.write();
  if (formulasChanged) await dropCalculationChain(parts, workbook);
  if (isUnsure || (now.isStale && parts.changed().size > 0)) await calculateWhenOpened(context);
  await referToAddIn(context);
  const changed = isStrict(await archive.text(workbook.part)) ? inStrictEdition(parts.changed()) : parts.changed();
  return changed.size + parts.dropped.size > 0 ? archive.withParts(changed, parts.dropped) : original;
}

function versionsOf(before: PlacedBook, now: PlacedBook, read: ReadWorkbook): PlacedVersions[] {
  return before.ids.flatMap((id, i) => {
    const [was, is] = [sheetOf(before, id), sheetOf(now, id)];
    return was && is ? [{ id, name: is.name, versions: { before: was.cells, now: is.cells, tables: is.tables, stored: read.book.sheets[i]?.cells ?? new Map() } }] : [];
  });
}

async function mergeSheet(context: MergeContext, { id, versions }: PlacedVersions, taken: ReadonlySet<string>): Promise<Omit<MergedCells, "xml">> {
  const [before, now] = [sheetOf(context.before, id), sheetOf(context.now, id)];
  const { marks, parts, styles } = context;
  const part = partOf(context, id);
  const { xml, ...found } = mergeCells(await parts.text(part), part, versions, taken, styles, marks);
  parts.set(part, xml);
  if (before && now) await mergeSheetAspects(context, part, before, now);
  return found;
}

async function stylesOf(parts: PartEdits, workbook: WorkbookPart, now: PlacedBook): Promise<MergedStyles> {
  const part = stylesPart(workbook);
  return new MergedStyles(part === undefined ? null : { xml: await parts.text(part), part }, now.book.font);
}

async function writeStyles({ parts, styles, workbook }: MergeContext): Promise<void> {
  const part = stylesPart(workbook);
  if (part !== undefined) return parts.set(part, styles.text());
  if (!styles.isChanged) return;
  const added = freePart(parts, `${workbook.part.slice(0, workbook.part.lastIndexOf("/") + 1)}styles`);
  await addPart(parts, added, styles.text(), STYLES_TYPE);
  await addLink(parts, workbook.part, `${OFFICE}/relationships/styles`, added);
}

const STYLES_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";

function stylesPart({ relationships }: WorkbookPart): string | undefined {
  return relationships.find(({ kind }) => kind === "styles")?.part;
}
