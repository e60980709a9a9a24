import type { GridPort } from "../grid-port";
import { asExcelError } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { workbookOf } from "./workbook";

/**
 * What one batch asked for, in order. Nothing touches the grid before `sync`; a failed request ends its sync, and the requests
 * queued behind it are dropped, as in Excel.
 */
export class LocalContext implements Pick<Excel.RequestContext, "sync" | "workbook"> {
  readonly workbook: Excel.Workbook;
  /** Seen from the code that uses it, this context is Excel's. */
  readonly asExcel: Excel.RequestContext;
  private requests: (() => void)[] = [];
  private syncing = false;

  constructor(readonly port: GridPort) {
    this.workbook = workbookOf(this);
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
      for (const request of requests) request();
    } catch (error) {
      throw asExcelError(error);
    } finally {
      this.syncing = false;
    }
    return passThroughValue as T;
  }
}
