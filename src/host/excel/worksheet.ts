import type { GridSheet } from "../grid-port";
import { chartsOf } from "./charts";
import { ClientObject, type Loadable, type LoadOption } from "./client-object";
import { invalidArgument, itemNotFound } from "./excel-error";
import { freezePanesOf } from "./freeze-panes";
import { namesOf } from "./named-items";
import { onlyWhatStands } from "./only-what-stands";
import { pageLayoutOf } from "./page-layout";
import { rangeOf, usedRange } from "./range";
import { onSheet, WHOLE_SHEET } from "./range-geometry";
import { type RangeTarget, rangeIn, splitReference, targetAt } from "./range-target";
import type { LocalContext } from "./request-context";
import { activatedEvent, changedEvent, sheetSelectionEvent } from "./sheet-events";
import { refuseSheetName } from "./sheet-name";
import { tablesOf } from "./tables";

type Ranges = "getCell" | "getRange" | "getRangeByIndexes" | "getUsedRange" | "getUsedRangeOrNullObject";
type Parts = "charts" | "freezePanes" | "names" | "onActivated" | "onChanged" | "onSelectionChanged" | "pageLayout" | "tables";
type Members = Parts | Ranges | "activate" | "context" | "delete" | "id" | "isNullObject" | "load" | "name" | "position" | "visibility";

/** A sheet. Its target is its id, which stays when it is renamed. */
class LocalWorksheet extends ClientObject<string> implements Pick<Excel.Worksheet, Members> {
  protected override readonly readers = {
    id: (id: string) => id,
    name: (id: string) => this.local.sheetName(id),
    position: (id: string) => this.local.port.sheets.list().findIndex((sheet) => sheet.id === id),
    visibility: (id: string) => this.visibilityOf(this.sheet(id)),
  };
  private readonly parts = new Map<string, unknown>();

  get charts(): Excel.ChartCollection {
    return this.once("charts", () => chartsOf(this.local, () => this.found()));
  }

  get tables(): Excel.TableCollection {
    return this.once("tables", () => tablesOf(this.local, this.below((sheetId) => ({ sheetId }))));
  }

  get names(): Excel.NamedItemCollection {
    return this.once("names", () => namesOf(this.local, this.below((sheetId) => ({ sheetId }))));
  }

  get pageLayout(): Excel.PageLayout {
    return this.once("pageLayout", () => pageLayoutOf(this.local, () => this.found()));
  }

  get freezePanes(): Excel.WorksheetFreezePanes {
    return this.once("freezePanes", () => freezePanesOf(this.local, () => this.found()));
  }

  get onChanged(): OfficeExtension.EventHandlers<Excel.WorksheetChangedEventArgs> {
    return this.once("onChanged", () => changedEvent(this.local, () => this.found()));
  }

  get onSelectionChanged(): OfficeExtension.EventHandlers<Excel.WorksheetSelectionChangedEventArgs> {
    return this.once("onSelectionChanged", () => sheetSelectionEvent(this.local, () => this.found()));
  }

  get onActivated(): OfficeExtension.EventHandlers<Excel.WorksheetActivatedEventArgs> {
    return this.once("onActivated", () => activatedEvent(this.local, () => this.found()));
  }

  protected override part(name: string): Loadable | undefined {
    return name === "charts" || name === "tables" || name === "names" || name === "pageLayout" ? this[name] : undefined;
  }

  get id(): string {
    return this.loadedCopy("id") as string;
  }

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  set name(name: string) {
    this.setCopy("name", name, (id) => {
      refuseSheetName(this.local, name, id, "Worksheet.name");
      this.local.port.sheets.rename(id, name);
    });
  }

  /** Counted from 0. */
  get position(): number {
    return this.loadedCopy("position") as number;
  }

  set position(position: number) {
    this.setCopy("position", position, (id) => {
      if (!Number.isInteger(position) || position < 0 || position >= this.local.port.sheets.list().length) throw invalidArgument("Worksheet.position", `there is no place ${position}.`);
      this.local.port.sheets.move(id, position);
    });
  }

  get visibility(): Excel.Worksheet["visibility"] {
    return this.loadedCopy("visibility") as Excel.Worksheet["visibility"];
  }

  set visibility(visibility: Excel.Worksheet["visibility"]) {
    this.setCopy("visibility", visibility, (id) => {
      const hides = visibility !== "Visible";
      if (hides && this.isLastVisible(id)) throw invalidArgument("Worksheet.visibility", "a workbook shows one sheet or more.");
      if (this.sheet(id).visible === hides) this.local.port.sheets.setVisible(id, !hides);
      const others = this.local.port.state.current().veryHidden.filter((one) => one !== id);
      const veryHidden = visibility === "VeryHidden" ? [...others, id] : others;
      if (veryHidden.length !== others.length || others.length !== this.local.port.state.current().veryHidden.length) this.local.changeState({ veryHidden });
    });
  }

  /** The grid shows a sheet by selecting on it, so a sheet that was not in front comes up at A1. */
  activate(): void {
    this.queueWith((id) => {
      const name = this.local.sheetName(id);
      if (this.local.port.activeSheet() !== name) this.local.port.select(name, "A1");
    });
  }

  delete(): void {
    this.queueWith((id) => {
      if (this.isLastVisible(id)) throw invalidArgument("Worksheet.delete", "a workbook shows one sheet or more.");
      this.local.port.sheets.remove(id);
    });
  }

  /** @param address "B2:C9", "A:C", "2:5" or a name of the workbook; without one the whole sheet */
  getRange(address?: string): Excel.Range {
    return this.rangeBy((sheetId) => (address === undefined ? { sheetId, range: WHOLE_SHEET } : (this.named(sheetId, address) ?? rangeIn(sheetId, address))));
  }

  getCell(row: number, column: number): Excel.Range {
    return this.rangeBy((sheetId) => targetAt(sheetId, onSheet({ startRow: row, startColumn: column, endRow: row, endColumn: column }), "Worksheet.getCell"));
  }

  getRangeByIndexes(startRow: number, startColumn: number, rowCount: number, columnCount: number): Excel.Range {
    const range = { startRow, startColumn, endRow: startRow + rowCount - 1, endColumn: startColumn + columnCount - 1 };
    return this.rangeBy((sheetId) => targetAt(sheetId, onSheet(range), "Worksheet.getRangeByIndexes"));
  }

  /** Of an empty sheet Excel gives its first cell. */
  getUsedRange(valuesOnly = false): Excel.Range {
    return this.rangeBy((sheetId) => usedRange(this.local, sheetId, valuesOnly) ?? rangeIn(sheetId, "A1"));
  }

  getUsedRangeOrNullObject(valuesOnly = false): Excel.Range {
    return this.rangeBy((sheetId) => usedRange(this.local, sheetId, valuesOnly));
  }

  load(option?: LoadOption): Excel.Worksheet {
    this.queueLoad(option);
    return asExcel(this);
  }

  private rangeBy(find: (sheetId: string) => RangeTarget | null): Excel.Range {
    return rangeOf(this.local, this.below(find));
  }

  private named(sheetId: string, name: string): RangeTarget | null {
    const known = this.local.port.names.list().filter((one) => one.name.toLowerCase() === name.toLowerCase());
    const found = known.find((one) => one.sheetId === sheetId) ?? known.find((one) => one.sheetId === null);
    const target = found && splitReference(this.local, found.formula);
    return target?.sheetId === sheetId ? target : null;
  }

  private once<T>(name: string, make: () => T): T {
    if (!this.parts.has(name)) this.parts.set(name, make());
    return this.parts.get(name) as T;
  }

  private sheet(id: string): GridSheet {
    const sheet = this.local.port.sheets.list().find((one) => one.id === id);
    if (!sheet) throw itemNotFound("Worksheet");
    return sheet;
  }

  private visibilityOf({ id, visible }: GridSheet): Excel.Worksheet["visibility"] {
    if (visible) return "Visible";
    return this.local.state().veryHidden.includes(id) ? "VeryHidden" : "Hidden";
  }

  private isLastVisible(id: string): boolean {
    return this.sheet(id).visible && this.local.port.sheets.list().every((sheet) => sheet.id === id || !sheet.visible);
  }
}

/** @param find runs at sync; gives the sheet's id, or null for a null object */
export function worksheetOf(local: LocalContext, find: () => string | null): Excel.Worksheet {
  return asExcel(onlyWhatStands(new LocalWorksheet(local, "Worksheet", find), "Worksheet"));
}

function asExcel(worksheet: LocalWorksheet): Excel.Worksheet {
  const offered: Partial<Excel.Worksheet> = worksheet;
  return offered as Excel.Worksheet;
}
