import { onlyWhatStands } from "./only-what-stands";
import { rangeIn, rangeOf } from "./range";
import type { LocalContext } from "./request-context";
import { worksheetsOf } from "./worksheets";

class LocalWorkbook implements Pick<Excel.Workbook, "context" | "getSelectedRange" | "worksheets"> {
  readonly worksheets: Excel.WorksheetCollection;

  constructor(private readonly local: LocalContext) {
    this.worksheets = worksheetsOf(local);
  }

  get context(): Excel.RequestContext {
    return this.local.asExcel;
  }

  getSelectedRange(): Excel.Range {
    return rangeOf(this.local, () => {
      const { sheet, address } = this.local.port.selection();
      return rangeIn(sheet, address);
    });
  }
}

export function workbookOf(local: LocalContext): Excel.Workbook {
  const offered: Partial<Excel.Workbook> = onlyWhatStands(new LocalWorkbook(local), "Workbook");
  return offered as Excel.Workbook;
}
