import { cellAddress, rangeAddress, readCell } from "../files/address";
import { storedResult, type CellResult } from "../files/cell-result";
import type { CoverFormats } from "../files/hand-over/cover-part";
import type { Printed } from "../files/hand-over/print-names";
import { toStored } from "../files/formula-text";
import { valueElement } from "../files/patch-cell";
import { encodeAttribute, encodeText, escapeXml } from "../files/xml";
import type { Draft, DraftCell } from "./draft";

const MOST_ON_A_PAGE = 8;
/** Characters: the longest heading of an account. */
const USUAL_WIDTH = 26;

/** The worksheet part of a draft. `results`: what its formulas gave, by address. Headings stay in sight. */
export function draftPart(draft: Draft, results: ReadonlyMap<string, CellResult>, formats: CoverFormats, namespace: string): string {
  const rows = new Map<number, { column: number; text: string }[]>();
  for (const [address, cell] of draft.cells) {
    const place = readCell(address);
    if (!place) continue;
    const line = rows.get(place.row) ?? [];
    if (line.length === 0) rows.set(place.row, line);
    line.push({ column: place.column, text: cellElement(address, cell, results.get(address), formats) });
  }
  // What an array formula answers for beside its own cell.
  for (const [address, result] of results) {
    const place = readCell(address);
    if (!place || draft.cells.has(address)) continue;
    const line = rows.get(place.row) ?? [];
    if (line.length === 0) rows.set(place.row, line);
    line.push({ column: place.column, text: `<c r="${address}" s="${formats.plain}"${kindOf(result)}>${valueElement("", storedResult(result).text)}</c>` });
  }
  const written = [...rows].sort(([a], [b]) => a - b).map(([row, cells]) => `<row r="${row + 1}">${cells.sort((a, b) => a.column - b.column).map(({ text }) => text).join("")}</row>`);
  const columns = draft.widths.map((width, c) => `<col min="${c + 1}" max="${c + 1}" width="${width}" customWidth="1"/>`).join("");
  // A sheet of many columns on one page could not be read.
  const fits = draft.layout.columns !== undefined || (draft.widths.length > 0 && draft.widths.length <= MOST_ON_A_PAGE);
  const [, last] = draft.layout.headings;
  const frozen = `<pane ySplit="${last}" topLeftCell="${cellAddress(last, 0)}" activePane="bottomLeft" state="frozen"/>`;
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${encodeAttribute(namespace)}">${fits ? '<sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>' : ""}` +
    `<sheetViews><sheetView workbookViewId="0">${frozen}</sheetView></sheetViews><sheetFormatPr ${columns === "" || draft.layout.columns !== undefined ? `defaultColWidth="${USUAL_WIDTH}" ` : ""}defaultRowHeight="15"/>${columns === "" ? "" : `<cols>${columns}</cols>`}` +
    `<sheetData>${written.join("")}</sheetData><pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/><pageSetup orientation="landscape"${fits ? ' fitToHeight="0"' : ""}/></worksheet>`
  );
}

/** What of a draft is printed. */
export function printedOf({ layout, nextRow, printedRows }: Draft): Printed {
  return { titleRows: layout.headings, ...(layout.columns === undefined ? {} : { area: rangeAddress({ startRow: 0, startColumn: 0, endRow: Math.max(1, printedRows ?? nextRow) - 1, endColumn: layout.columns - 1 }) }) };
}

function cellElement(address: string, { content, look }: DraftCell, result: CellResult | undefined, formats: CoverFormats): string {
  const at = `r="${address}" s="${look === "text" ? formats.plain : look === "quiet" ? formats.note : look === "wrapped" ? formats.text : formats[look]}"`;
  if (typeof content === "number") return `<c ${at}><v>${content}</v></c>`;
  if (typeof content === "string") return `<c ${at} t="inlineStr"><is><t xml:space="preserve">${encodeText(content)}</t></is></c>`;
  const array = content.array === undefined ? "" : ` t="array" ref="${content.array}"`;
  const value = result === undefined ? "" : valueElement("", storedResult(result).text);
  return `<c ${at}${result === undefined ? "" : kindOf(result)}><f${array}>${escapeXml(toStored(content.formula))}</f>${value}</c>`;
}

function kindOf(result: CellResult): string {
  const { kind } = storedResult(result);
  return kind ? ` t="${kind}"` : "";
}
