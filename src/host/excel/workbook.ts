import { customXmlPartsOf } from "./custom-xml";
import { namesOf } from "./named-items";
import { nativeFunctionsOf } from "./native-functions";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf } from "./range";
import { needed, rangeIn } from "./range-target";
import type { LocalContext } from "./request-context";
import { selectionEvent } from "./sheet-events";
import { tablesOf } from "./tables";
import { worksheetsOf } from "./worksheets";

type Members = "context" | "customXmlParts" | "functions" | "getActiveCell" | "getSelectedRange" | "names" | "onSelectionChanged" | "tables" | "worksheets";

class LocalWorkbook implements Pick<Excel.Workbook, Members> {
  readonly worksheets: Excel.WorksheetCollection;
  readonly tables: Excel.TableCollection;
  readonly names: Excel.NamedItemCollection;
  readonly customXmlParts: Excel.CustomXmlPartCollection;
  readonly functions: Excel.Functions;
  readonly onSelectionChanged: OfficeExtension.EventHandlers<Excel.SelectionChangedEventArgs>;

  constructor(private readonly local: LocalContext) {
    const all = () => ({ sheetId: null });
    this.worksheets = worksheetsOf(local);
    this.tables = tablesOf(local, all);
    this.names = namesOf(local, all);
    this.customXmlParts = customXmlPartsOf(local);
    this.functions = nativeFunctionsOf(local);
    this.onSelectionChanged = selectionEvent(local);
  }

  get context(): Excel.RequestContext {
    return this.local.asExcel;
  }

  getSelectedRange(): Excel.Range {
    return rangeOf(this.local, () => {
      const { sheet, address } = this.local.port.selection();
      return rangeIn(needed(this.local.sheetId(sheet), "Workbook.getSelectedRange"), address);
    });
  }

  /** The grid does not say which cell of a selection is the active one: it is the first. */
  getActiveCell(): Excel.Range {
    return this.getSelectedRange().getCell(0, 0);
  }
}

export function workbookOf(local: LocalContext): Excel.Workbook {
  const offered: Partial<Excel.Workbook> = onlyWhatStands(new LocalWorkbook(local), "Workbook");
  return offered as Excel.Workbook;
}
