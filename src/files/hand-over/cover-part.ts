import { encodeAttribute, encodeText } from "../xml";

/** One line of the cover sheet: up to three texts, and how it looks. */
export interface CoverLine {
  readonly look: "title" | "heading" | "text" | "quiet";
  readonly cells: readonly (string | number)[];
}

/** Numbers of the cell formats of the looks, as the styles part has them; 0 for all where the file has no styles. */
export type CoverFormats = Readonly<Record<CoverLine["look"] | "plain" | "note" | "date", number>>;

const WIDTHS = [34, 30, 78];
const LINE_POINTS = 15;
/** Of a line's width, what words fill on average. Programs differ in whether they make room for wrapped texts by themselves. */
const WORDS_PART = 1.1;

/** The worksheet part of the cover sheet. Texts stand in the part itself, so that no other part changes for them. */
export function coverPart(lines: readonly CoverLine[], formats: CoverFormats, namespace: string): string {
  const rows = lines.map(({ cells, look }, r) => {
    const written = cells.map((cell, c) => {
      const at = `r="${"ABC"[c]}${r + 1}" s="${formats[look]}"`;
      if (typeof cell === "number") return `<c ${at}><v>${cell}</v></c>`;
      return cell === "" ? "" : `<c ${at} t="inlineStr"><is><t xml:space="preserve">${encodeText(cell)}</t></is></c>`;
    });
    const height = LINE_POINTS * (look === "title" ? 1.4 : Math.max(1, ...cells.map((cell, c) => Math.ceil(String(cell).length / ((WIDTHS[c] ?? 1) * WORDS_PART)))));
    return `<row r="${r + 1}" ht="${height}" customHeight="1">${written.join("")}</row>`;
  });
  const columns = WIDTHS.map((width, c) => `<col min="${c + 1}" max="${c + 1}" width="${width}" customWidth="1"/>`).join("");
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${encodeAttribute(namespace)}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>` +
    `<sheetViews><sheetView showGridLines="0" tabSelected="1" workbookViewId="0"/></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols>${columns}</cols>` +
    `<sheetData>${rows.join("")}</sheetData><pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/><pageSetup orientation="portrait" fitToHeight="0"/></worksheet>`
  );
}
