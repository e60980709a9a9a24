import { gridEvent } from "./grid-event";
import type { LocalContext } from "./request-context";

type Events<Args> = OfficeExtension.EventHandlers<Args>;
/** Which sheet is meant: its id, found at sync; undefined for every sheet. */
type Only = (() => string | null) | undefined;

/** Something was typed or written; the answers of formulas are no change, as in Excel. */
export function changedEvent(local: LocalContext, only?: Only): Events<Excel.WorksheetChangedEventArgs> {
  return gridEvent<Excel.WorksheetChangedEventArgs>(local, (tell) => {
    const sheet = only?.();
    return local.port.onChange((changes) => {
      for (const { sheetId: worksheetId, address, kind: changeType } of changes) {
        if (sheet !== undefined && sheet !== worksheetId) continue;
        const rangeIn = (context: Excel.RequestContext) => context.workbook.worksheets.getItem(worksheetId).getRange(address);
        tell({ type: "WorksheetChanged", worksheetId, address, changeType, source: "Local", getRange: rangeIn });
      }
    });
  });
}

/** Cells changed or have new answers; the grid does not say on which sheet. */
export function calculatedEvent(local: LocalContext): Events<Excel.WorksheetCalculatedEventArgs> {
  return gridEvent<Excel.WorksheetCalculatedEventArgs>(local, (tell) => local.port.onChange(() => tell({ type: "WorksheetCalculated" })));
}

export function sheetSelectionEvent(local: LocalContext, only?: Only): Events<Excel.WorksheetSelectionChangedEventArgs> {
  return gridEvent<Excel.WorksheetSelectionChangedEventArgs>(local, (tell) => {
    const wanted = only?.();
    return local.port.onSelection(() => {
      const { sheet, address } = local.port.selection();
      const worksheetId = local.sheetId(sheet);
      if (worksheetId !== null && (wanted === undefined || wanted === worksheetId)) tell({ type: "WorksheetSelectionChanged", worksheetId, address });
    });
  });
}

export function selectionEvent(local: LocalContext): Events<Excel.SelectionChangedEventArgs> {
  return gridEvent<Excel.SelectionChangedEventArgs>(local, (tell) => local.port.onSelection(() => tell({ workbook: local.workbook })));
}

/** Another sheet came to the front. */
export function activatedEvent(local: LocalContext, only?: Only): Events<Excel.WorksheetActivatedEventArgs> {
  return gridEvent<Excel.WorksheetActivatedEventArgs>(local, (tell) => {
    const wanted = only?.();
    let inFront = local.sheetId(local.port.activeSheet());
    return local.port.onSelection(() => {
      const worksheetId = local.sheetId(local.port.activeSheet());
      if (worksheetId === inFront) return;
      inFront = worksheetId;
      if (worksheetId !== null && (wanted === undefined || wanted === worksheetId)) tell({ type: "WorksheetActivated", worksheetId });
    });
  });
}
