import { type Archive, openArchive } from "./archive";
import type { ArchiveLimits } from "./archive-limits";
import type { Book } from "./book";
import type { BookConditionalFormat, BookExtras, PrintSetup, SheetExtras } from "./book-extras";
import { readThemeColours } from "./colours";
import { readXmlParts } from "./custom-xml-part";
import { readDifferences } from "./differences-reader";
import { readDrawing } from "./drawing-reader";
import { readBookOf } from "./read-book";
import { readRelationships } from "./relationships";
import { readRules } from "./rules-reader";
import { Unshown, type UnshownKind } from "./unshown";
import { type NameEntry, readWorkbookPart, type WorkbookPart } from "./workbook-part";
import { attribute, walkXml } from "./xml";

export interface ReadWorkbook {
  book: Book;
  extras: BookExtras;
  /** What the file has that stands in neither of the two, and how many of each. */
  unshown: [kind: UnshownKind, count: number][];
}

/** Kinds of parts beside a worksheet that the grid has not, each part one of its kind. */
const BESIDE_SHEET: Readonly<Record<string, UnshownKind>> = { pivotTable: "pivotTable", slicer: "slicer", timeline: "slicer", ctrlProp: "control", control: "control", oleObject: "object", package: "object", queryTable: "query" };
const BESIDE_WORKBOOK: Readonly<Record<string, UnshownKind>> = { externalLink: "externalLink", vbaProject: "macro", connections: "query", chartsheet: "chartSheet" };

/**
 * Reads an .xlsx file with all that the grid can hold: what readBook reads, and rules for cells, charts, page set-up and XML
 * parts. Throws a Problem with one sentence for a file that is no workbook, damaged, protected or too large.
 */
export async function readWorkbook(bytes: Uint8Array, limits?: ArchiveLimits): Promise<ReadWorkbook> {
  const archive = await openArchive(bytes, limits);
  const workbook = await readWorkbookPart(archive);
  const book = await readBookOf(archive, workbook);
  const unshown = new Unshown();
  for (const { kind } of workbook.relationships) {
    const beside = BESIDE_WORKBOOK[kind];
    if (beside) unshown.count(beside);
  }
  // Excel's own names are none of the keeper's.
  unshown.count("name", workbook.names.filter(({ name }) => name !== "" && !/^_xl/i.test(name)).length - book.names.length);
  unshown.count("richText", await richTexts(archive, workbook));
  const differences = await readLooks(archive, workbook);
  const sheets: SheetExtras[] = [];
  for (const { part, tab, veryHidden } of workbook.sheets) {
    const xml = await archive.text(part);
    countInCells(xml, unshown);
    const sheet: SheetExtras = { ...readRules(xml, part, differences, unshown), charts: await readBeside(archive, part, unshown) };
    const print = { ...sheet.print, ...printNames(workbook.names, tab) };
    if (Object.keys(print).length > 0) sheet.print = print;
    if (veryHidden) sheet.veryHidden = true;
    sheets.push(sheet);
  }
  return { book, extras: { sheets, xmlParts: await readXmlParts(archive, workbook.relationships), active: workbook.active }, unshown: unshown.list() };
}

/** What the conditional formats of a workbook change, by the number that rules name. */
export async function readLooks(archive: Archive, { relationships }: WorkbookPart): Promise<BookConditionalFormat["style"][]> {
  const part = (kind: string) => relationships.find((one) => one.kind === kind && archive.has(one.part))?.part;
  const [styles, theme] = [part("styles"), part("theme")];
  if (styles === undefined) return [];
  return readDifferences(await archive.text(styles), styles, theme === undefined ? [] : readThemeColours(await archive.text(theme), theme));
}

/** Texts that are shared by cells and have more than one look. */
async function richTexts(archive: Archive, { relationships }: WorkbookPart): Promise<number> {
  const part = relationships.find(({ kind }) => kind === "sharedStrings")?.part;
  return part === undefined || !archive.has(part) ? 0 : count(await archive.text(part), /<(?:[\w.-]+:)?si>\s*<(?:[\w.-]+:)?r>/g);
}

function countInCells(xml: string, unshown: Unshown): void {
  unshown.count("richText", count(xml, /<(?:[\w.-]+:)?is>\s*<(?:[\w.-]+:)?r>/g));
  unshown.count("whatIf", count(xml, /<(?:[\w.-]+:)?f\b[^>]*\st\s*=\s*["']dataTable["']/g));
  if (/<(?:[\w.-]+:)?(?:row|col)\b[^>]*\soutlineLevel\s*=\s*["'][1-9]/.test(xml)) unshown.count("group");
}

const count = (text: string, pattern: RegExp): number => [...text.matchAll(pattern)].length;

/** Reads the charts of a sheet, and counts what else stands beside its cells. */
async function readBeside(archive: Archive, sheet: string, unshown: Unshown): Promise<SheetExtras["charts"]> {
  const relationships = await readRelationships(archive, sheet);
  const threaded = relationships.some(({ kind }) => kind === "threadedComment");
  const charts: SheetExtras["charts"] = [];
  for (const { kind, part } of relationships) {
    const beside = BESIDE_SHEET[kind];
    if (beside) unshown.count(beside);
    else if (kind === "drawing") charts.push(...(await readDrawing(archive, part, unshown)));
    // A threaded comment leaves a plain one beside it, for older programs.
    else if (kind === (threaded ? "threadedComment" : "comments") && archive.has(part)) unshown.count("comment", await commentsIn(archive, part));
  }
  return charts;
}

async function commentsIn(archive: Archive, part: string): Promise<number> {
  let count = 0;
  walkXml(await archive.text(part), part, {
    open(tag) {
      // An answer in a thread belongs to the comment that it answers.
      if (tag.local === "comment" || (tag.local === "threadedComment" && attribute(tag, "parentId") === undefined)) count += 1;
    },
  });
  return count;
}

function printNames(names: readonly NameEntry[], sheet: number): PrintSetup {
  const ref = (name: string) => names.find((one) => one.sheet === sheet && one.name === name)?.ref ?? "";
  // Where columns are repeated, too, they stand before the rows with a comma between.
  const rows = /(?:^|[!,])\$?(\d+):\$?(\d+)$/.exec(ref("_xlnm.Print_Titles"));
  const area = /^(?:'(?:[^']|'')+'|[^'!,]+)!(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?|\$?[A-Z]{1,3}:\$?[A-Z]{1,3}|\$?\d+:\$?\d+)$/.exec(ref("_xlnm.Print_Area"));
  return {
    ...(rows ? { titleRows: { from: Number(rows[1]), to: Number(rows[2]) } } : {}),
    ...(area?.[1] ? { area: area[1].replace(/\$/g, "") } : {}),
  };
}
