import { freeName } from "./book-state";
import { ClientCollection } from "./client-collection";
import type { LoadOption } from "./client-object";
import { itemNotFound } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";
import { activatedEvent, calculatedEvent, changedEvent, sheetSelectionEvent } from "./sheet-events";
import { refuseSheetName } from "./sheet-name";
import { worksheetOf } from "./worksheet";

type Events = "onActivated" | "onCalculated" | "onChanged" | "onSelectionChanged";
type Members = Events | "add" | "context" | "getActiveWorksheet" | "getCount" | "getFirst" | "getItem" | "getItemOrNullObject" | "isNullObject" | "items" | "load";

/** The sheets in tab order. A sheet is asked for by its name or its id, as in Excel. */
class LocalWorksheets extends ClientCollection<true, Excel.Worksheet> implements Pick<Excel.WorksheetCollection, Members> {
  readonly onChanged = changedEvent(this.local);
  readonly onCalculated = calculatedEvent(this.local);
  readonly onSelectionChanged = sheetSelectionEvent(this.local);
  readonly onActivated = activatedEvent(this.local);

  /** Adds a sheet behind the last; the sheet in front stays there. */
  add(name?: string): Excel.Worksheet {
    return this.item(() => {
      const sheets = this.local.port.sheets.list();
      const wanted = name ?? freeName("Sheet", sheets.map((sheet) => sheet.name));
      refuseSheetName(this.local, wanted, null, "WorksheetCollection.add");
      return this.local.port.sheets.add(wanted);
    });
  }

  /** @param visibleOnly counts the sheets that are shown */
  override getCount(visibleOnly = false): OfficeExtension.ClientResult<number> {
    return this.countOf(visibleOnly ? () => this.local.port.sheets.list().filter((sheet) => sheet.visible).length : undefined);
  }

  getFirst(visibleOnly = false): Excel.Worksheet {
    return this.item(() => {
      const first = this.local.port.sheets.list().find((sheet) => sheet.visible || !visibleOnly);
      if (!first) throw itemNotFound("WorksheetCollection.getFirst");
      return first.id;
    });
  }

  getActiveWorksheet(): Excel.Worksheet {
    return this.item(() => this.local.sheetId(this.local.port.activeSheet()));
  }

  load(option?: LoadOption): Excel.WorksheetCollection {
    this.queueLoadItems(option);
    return asExcel(this);
  }

  protected override keys(): string[] {
    return this.local.port.sheets.list().map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return this.local.sheetName(id);
  }

  protected override item(find: () => string | null): Excel.Worksheet {
    return worksheetOf(this.local, find);
  }
}

export function worksheetsOf(local: LocalContext): Excel.WorksheetCollection {
  return asExcel(onlyWhatStands(new LocalWorksheets(local, "WorksheetCollection", () => true), "WorksheetCollection"));
}

function asExcel(worksheets: LocalWorksheets): Excel.WorksheetCollection {
  const offered: Partial<Excel.WorksheetCollection> = worksheets;
  return offered as Excel.WorksheetCollection;
}
