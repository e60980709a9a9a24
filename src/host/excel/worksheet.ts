import { ClientObject, type LoadOption } from "./client-object";
import { notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { rangeIn, rangeOf } from "./range";
import type { LocalContext } from "./request-context";

type Members = "activate" | "context" | "getRange" | "isNullObject" | "load" | "name";

/** The target of a sheet is its name. */
class LocalWorksheet extends ClientObject<string> implements Pick<Excel.Worksheet, Members> {
  protected override readonly readers = { name: (name: string) => name };

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  load(option?: LoadOption): Excel.Worksheet {
    this.queueLoad(option);
    return asExcel(this);
  }

  /** The grid shows a sheet by selecting on it, so a sheet that was not in front comes up at A1. */
  activate(): void {
    this.queueWith((name) => {
      if (this.local.port.activeSheet() !== name) this.local.port.select(name, "A1");
    });
  }

  getRange(address?: string): Excel.Range {
    if (address === undefined) throw notImplemented("Worksheet", "getRange() of a whole sheet");
    return rangeOf(this.local, () => {
      const name = this.found();
      return name === null ? null : rangeIn(name, address);
    });
  }
}

/** @param find runs at sync; gives the sheet's name, or null for a null object */
export function worksheetOf(local: LocalContext, find: () => string | null): Excel.Worksheet {
  return asExcel(onlyWhatStands(new LocalWorksheet(local, "Worksheet", find), "Worksheet"));
}

function asExcel(worksheet: LocalWorksheet): Excel.Worksheet {
  const offered: Partial<Excel.Worksheet> = worksheet;
  return offered as Excel.Worksheet;
}
