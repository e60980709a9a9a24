import { Problem } from "../science/problem";
import { files } from "../words/files";
import type { Archive } from "./archive";
import { type Relationship, readRelationships } from "./relationships";
import { attribute, decodeText, flag, isSpreadsheet, walkXml } from "./xml";

export interface SheetEntry {
  name: string;
  part: string;
  hidden: boolean;
  /** Whether no menu may bring it back. */
  veryHidden: boolean;
  /** Its place among all tabs, chart sheets too. */
  tab: number;
}

export interface NameEntry {
  name: string;
  /** As stored, without the leading "=". */
  ref: string;
  /** The place of the sheet to which alone the name belongs, among all tabs; undefined for a name of the whole workbook. */
  sheet?: number;
}

export interface WorkbookPart {
  part: string;
  relationships: Relationship[];
  /** Worksheets in tab order; chart sheets have no cells and are left out. */
  sheets: SheetEntry[];
  names: NameEntry[];
  date1904: boolean;
  /** The place of the sheet in front, among the worksheets. */
  active: number;
}

/** Finds and reads the part that lists the sheets. Throws a Problem when the archive holds no workbook of this format. */
export async function readWorkbookPart(archive: Archive): Promise<WorkbookPart> {
  const part = (await readRelationships(archive, "")).find((relationship) => relationship.kind === "officeDocument")?.part;
  if (part?.endsWith(".bin")) throw new Problem("value", files.binaryFormat);
  if (!part) throw new Problem("value", files.noWorkbook);
  const relationships = await readRelationships(archive, part);
  const tabs: { name: string; id: string; hidden: boolean; veryHidden: boolean }[] = [];
  const names: NameEntry[] = [];
  let date1904 = false;
  let activeTab = 0;
  let isWorkbook = false;
  let openName: NameEntry | undefined;
  walkXml(await archive.text(part), part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "workbook") isWorkbook = true;
      if (tag.local === "workbookPr") date1904 = flag(tag, "date1904");
      if (tag.local === "workbookView") activeTab = Number(attribute(tag, "activeTab") ?? 0);
      if (tag.local === "sheet") tabs.push({ name: decodeText(attribute(tag, "name") ?? ""), id: relationshipId(tag.attributes), hidden: (attribute(tag, "state") ?? "visible") !== "visible", veryHidden: attribute(tag, "state") === "veryHidden" });
      if (tag.local === "definedName") {
        const sheet = attribute(tag, "localSheetId");
        openName = { name: attribute(tag, "name") ?? "", ref: "", ...(sheet === undefined ? {} : { sheet: Number(sheet) }) };
      }
    },
    text(text) {
      if (openName) openName.ref += text;
    },
    close(tag) {
      if (tag.local !== "definedName" || !openName) return;
      names.push(openName);
      openName = undefined;
    },
  });
  if (!isWorkbook) throw new Problem("value", files.noWorkbook);
  const sheets = tabs.flatMap(({ name, id, hidden, veryHidden }, tab): SheetEntry[] => {
    const target = relationships.find((relationship) => relationship.id === id);
    if (!target) throw new Problem("value", files.missingPart(name));
    return target.kind === "worksheet" ? [{ name, part: target.part, hidden, veryHidden, tab }] : [];
  });
  const active = Math.max(0, sheets.findIndex(({ name }) => name === tabs[activeTab]?.name));
  return { part, relationships, sheets, names, date1904, active };
}

/** The id is in a namespace of its own, whose prefix a file may choose. */
function relationshipId(attributes: Record<string, { local: string; prefix: string; value: string }>): string {
  return Object.values(attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.value ?? "";
}
