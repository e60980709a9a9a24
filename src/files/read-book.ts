import { type Archive, openArchive } from "./archive";
import type { ArchiveLimits } from "./archive-limits";
import type { Book, BookSheet, BookTable } from "./book";
import { colourReader, readThemeColours } from "./colours";
import { readMetadataPart } from "./metadata-part";
import { readRelationships } from "./relationships";
import { readSheetPart, type SheetContext } from "./sheet-part";
import { readStylePart } from "./style-part";
import { readTablePart } from "./table-part";
import { readTextPart } from "./text-part";
import { usableNames } from "./usable-names";
import { readWorkbookPart, type WorkbookPart } from "./workbook-part";

/**
 * Reads an .xlsx file: values, formulas in the form that the keeper sees, and what the grid shows of styles and layout.
 * Throws a Problem with one sentence for a file that is no workbook, damaged, protected or too large.
 */
export async function readBook(bytes: Uint8Array, limits?: ArchiveLimits): Promise<Book> {
  const archive = await openArchive(bytes, limits);
  return readBookOf(archive, await readWorkbookPart(archive));
}

/** The same of a file that is open already. */
export async function readBookOf(archive: Archive, workbook: WorkbookPart): Promise<Book> {
  const context = await readContext(archive, workbook);
  const sheets: BookSheet[] = [];
  for (const { name, part, hidden } of workbook.sheets) {
    const sheet = readSheetPart(await archive.text(part), part, name, context);
    if (hidden) sheet.hidden = true;
    const tables = await readTables(archive, part);
    if (tables.length > 0) sheet.tables = tables;
    sheets.push(sheet);
  }
  return { sheets, names: usableNames(workbook.names), date1904: workbook.date1904 };
}

async function readContext(archive: Archive, { relationships, date1904 }: WorkbookPart): Promise<SheetContext> {
  const read = async <T>(kind: string, reader: (xml: string, part: string) => T, otherwise: T): Promise<T> => {
    const part = relationships.find((relationship) => relationship.kind === kind)?.part;
    // A file may name a part that it does not have; what needs it will say so.
    return part === undefined || !archive.has(part) ? otherwise : reader(await archive.text(part), part);
  };
  const theme = await read<string[]>("theme", readThemeColours, []);
  const { dynamic } = await read<{ dynamic: ReadonlySet<number> }>("sheetMetadata", readMetadataPart, { dynamic: new Set() });
  return {
    texts: await read<string[]>("sharedStrings", readTextPart, []),
    styles: await read("styles", (xml, part) => readStylePart(xml, part, theme), []),
    date1904,
    spillsFreely: (metadata) => dynamic.has(metadata),
    colour: colourReader(theme),
  };
}

async function readTables(archive: Archive, part: string): Promise<BookTable[]> {
  const tables: BookTable[] = [];
  for (const { kind, part: tablePart } of await readRelationships(archive, part)) {
    const table = kind === "table" && archive.has(tablePart) ? readTablePart(await archive.text(tablePart), tablePart) : undefined;
    if (table) tables.push(table);
  }
  return tables;
}
