import { invalidArgument } from "./excel-error";
import { ClientObject } from "./client-object";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf } from "./range";
import { entireRows } from "./range-geometry";
import type { LocalContext } from "./request-context";

/** The rows of a sheet that stay in view. The target is the sheet's id. */
class LocalFreezePanes extends ClientObject<string> implements Pick<Excel.WorksheetFreezePanes, "context" | "freezeRows" | "getLocationOrNullObject" | "unfreeze"> {
  protected override readonly readers = {};

  freezeRows(count = 0): void {
    if (!Number.isInteger(count) || count < 0) throw invalidArgument("WorksheetFreezePanes.freezeRows", "the count is a whole number, 0 or more.");
    this.queueWith((id) => this.local.port.sheets.freezeRows(this.local.sheetName(id), count));
  }

  unfreeze(): void {
    this.freezeRows(0);
  }

  getLocationOrNullObject(): Excel.Range {
    return rangeOf(
      this.local,
      this.below((sheetId) => {
        const rows = this.local.port.sheets.frozenRows(this.local.sheetName(sheetId));
        return rows > 0 ? { sheetId, range: entireRows({ startRow: 0, endRow: rows - 1, startColumn: 0, endColumn: 0 }) } : null;
      }),
    );
  }
}

export function freezePanesOf(local: LocalContext, find: () => string | null): Excel.WorksheetFreezePanes {
  const offered: Partial<Excel.WorksheetFreezePanes> = onlyWhatStands(new LocalFreezePanes(local, "WorksheetFreezePanes", find), "WorksheetFreezePanes");
  return offered as Excel.WorksheetFreezePanes;
}
