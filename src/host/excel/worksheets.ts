import { ClientObject, type LoadOption } from "./client-object";
import { itemNotFound } from "./excel-error";
import { gridEvent } from "./grid-event";
import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";
import { worksheetOf } from "./worksheet";

type Members =
  | "context"
  | "getActiveWorksheet"
  | "getItem"
  | "getItemOrNullObject"
  | "isNullObject"
  | "items"
  | "load"
  | "onCalculated"
  | "onChanged";

class LocalWorksheets extends ClientObject<true> implements Pick<Excel.WorksheetCollection, Members> {
  protected override readonly readers = { items: () => this.loadItems() };
  readonly onChanged = gridEvent<Excel.WorksheetChangedEventArgs>(this.local, "WorksheetChanged");
  readonly onCalculated = gridEvent<Excel.WorksheetCalculatedEventArgs>(this.local, "WorksheetCalculated");

  get items(): Excel.Worksheet[] {
    return this.loadedCopy("items") as Excel.Worksheet[];
  }

  /** Properties of a collection are those of its items: "items/name", "name" or { name: true }. */
  load(option?: LoadOption): Excel.WorksheetCollection {
    const names = itemProperties(option);
    this.queueLoad("items");
    this.local.queue(() => {
      for (const sheet of this.items) sheet.load(names);
    });
    return asExcel(this);
  }

  getItem(key: string): Excel.Worksheet {
    return worksheetOf(this.local, () => {
      const name = this.nameOf(key);
      if (name === null) throw itemNotFound("WorksheetCollection.getItem");
      return name;
    });
  }

  getItemOrNullObject(key: string): Excel.Worksheet {
    return worksheetOf(this.local, () => this.nameOf(key));
  }

  getActiveWorksheet(): Excel.Worksheet {
    return worksheetOf(this.local, () => this.local.port.activeSheet());
  }

  private loadItems(): Excel.Worksheet[] {
    return this.local.port.sheetNames().map((name) => worksheetOf(this.local, () => name));
  }

  /** Sheet names are told apart without regard to case. */
  private nameOf(key: string): string | null {
    return this.local.port.sheetNames().find((name) => name.toLowerCase() === key.toLowerCase()) ?? null;
  }
}

export function worksheetsOf(local: LocalContext): Excel.WorksheetCollection {
  return asExcel(onlyWhatStands(new LocalWorksheets(local, "WorksheetCollection", () => true), "WorksheetCollection"));
}

function itemProperties(option: LoadOption | undefined): string | undefined {
  const names = typeof option === "object" && !Array.isArray(option) ? Object.keys(option).join() : option?.toString();
  return names?.replace(/\bitems\//g, "");
}

function asExcel(worksheets: LocalWorksheets): Excel.WorksheetCollection {
  const offered: Partial<Excel.WorksheetCollection> = worksheets;
  return offered as Excel.WorksheetCollection;
}
