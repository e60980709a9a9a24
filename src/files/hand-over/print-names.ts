import { sheetReference } from "../address";
import { applyEdits, encodeText, isSpreadsheet, tagStart, walkXml } from "../xml";
import { withElement } from "../xml-parts";

/** What of a sheet is printed, and which of its rows stand on every page; rows count from 1. */
export interface Printed {
  readonly titleRows: readonly [from: number, to: number];
  /** "A1:L40"; all of the sheet where it is left out. */
  readonly area?: string;
}

/** A workbook part with the names by which a sheet says what is printed. `place`: of the sheet among all tabs. */
export function withPrintNames(xml: string, part: string, sheet: string, place: number, { titleRows: [from, to], area }: Printed): string {
  const own = sheetReference(sheet);
  const areaName = area === undefined ? [] : [["_xlnm.Print_Area", `${own}!${area.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`]];
  const names = [...areaName, ["_xlnm.Print_Titles", `${own}!$${from}:$${to}`]] as const;
  const written = (prefix: string): string => names.map(([name, ref]) => `<${prefix}definedName name="${name}" localSheetId="${place}">${encodeText(ref ?? "")}</${prefix}definedName>`).join("");
  const { list, after, prefix } = placesIn(xml, part);
  if (list) return withElement(xml, part, written, (tag) => isSpreadsheet(tag) && tag.local === "definedNames");
  return applyEdits(xml, [{ start: after, end: after, text: `<${prefix}definedNames>${written(prefix)}</${prefix}definedNames>` }]);
}

/** Whether the part has a list of names, and where it has to stand: behind the sheets, the groups of functions and the other workbooks. */
function placesIn(xml: string, part: string): { list: boolean; after: number; prefix: string } {
  let [list, after, prefix] = [false, 0, ""];
  walkXml(xml, part, {
    open(tag) {
      if (isSpreadsheet(tag) && tag.local === "definedNames") list = true;
    },
    close(tag, end) {
      if (!isSpreadsheet(tag) || !/^(?:sheets|functionGroups|externalReferences)$/.test(tag.local)) return;
      after = end;
      prefix = tag.prefix === "" ? "" : `${tag.prefix}:`;
    },
  });
  return { list, after: after || tagStart(xml, xml.length), prefix };
}
