import type { GridPort } from "../grid-port";
import { applicationOf } from "./application";
import { type BookState, stateOnSheets } from "./book-state";
import { asExcelError, itemNotFound } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import type { RangeTarget } from "./range-target";
import { tablesInRange } from "./tables";
import { workbookOf } from "./workbook";
import { worksheetOf } from "./worksheet";

/**
 * What one batch asked for, in order. Nothing touches the grid before `sync`; a failed request ends its sync, and the requests
 * queued behind it are dropped, as in Excel.
 */
export class LocalContext implements Pick<Excel.RequestContext, "application" | "sync" | "workbook"> {
  readonly workbook: Excel.Workbook;
  readonly application: Excel.Application;
  /** Seen from the code that uses it, this context is Excel's. */
  readonly asExcel: Excel.RequestContext;
  private requests: (() => void)[] = [];
  private syncing = false;

  constructor(readonly port: GridPort) {
    this.workbook = workbookOf(this);
    this.application = applicationOf(this);
    const offered: Partial<Excel.RequestContext> = onlyWhatStands<LocalContext>(this, "RequestContext");
    this.asExcel = offered as Excel.RequestContext;
  }

  /** A request that arises while others are done (the items of a collection that is being loaded) is part of them. */
  queue(request: () => void): void {
    if (this.syncing) request();
    else this.requests.push(request);
  }

  async sync<T>(passThroughValue?: T): Promise<T> {
    const requests = this.requests;
    this.requests = [];
    await Promise.resolve();
    this.syncing = true;
    try {
      // The grid remembers few steps of undo, and a chart takes ten requests.
      if (requests.length > 0) this.port.asOneStep(() => requests.forEach((request) => request()));
    } catch (error) {
      throw asExcelError(error);
    } finally {
      this.syncing = false;
    }
    return passThroughValue as T;
  }

  /** The name that a sheet has now. Fails for a sheet that is gone. */
  sheetName(id: string): string {
    const sheet = this.port.sheets.list().find((one) => one.id === id);
    if (!sheet) throw itemNotFound("Worksheet");
    return sheet.name;
  }

  /** Sheet names are told apart without regard to case. */
  sheetId(name: string): string | null {
    return this.port.sheets.list().find((sheet) => sheet.name.toLowerCase() === name.toLowerCase())?.id ?? null;
  }

  /** What the workbook holds beyond its cells, on the sheets that stand. */
  state(): BookState {
    return stateOnSheets(this.port.state.current(), new Set(this.port.sheets.list().map(({ id }) => id)));
  }

  /** What changes nothing is no step of undo. */
  changeState(change: Partial<BookState>): void {
    const before = this.port.state.current();
    const changes = (Object.keys(change) as (keyof BookState)[]).some((name) => JSON.stringify(before[name]) !== JSON.stringify(change[name]));
    if (changes) this.port.state.change({ ...before, ...change });
  }

  /** A range knows its sheet and a sheet its ranges; made here, their files need not know each other. */
  worksheet(find: () => string | null): Excel.Worksheet {
    return worksheetOf(this, find);
  }

  tablesIn(find: () => RangeTarget | null, fullyContained: boolean): Excel.TableScopedCollection {
    return tablesInRange(this, find, fullyContained);
  }
}
