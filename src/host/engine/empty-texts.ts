import { CellValueType } from "@univerjs/core";
import { BaseReferenceObject, StringValueObject } from "@univerjs/engine-formula";

let kept = false;

/**
 * A formula may show nothing by answering "". While the engine calculates, it takes such a cell for a blank one, so that =A1+1 and
 * =A1=0 find a 0 there; when the answer stands in the sheet, it takes it for a text, as Excel does. Here it is a text both times.
 */
export function keepEmptyTexts(): void {
  if (kept) return;
  kept = true;
  const each = BaseReferenceObject.prototype.iterator;
  BaseReferenceObject.prototype.iterator = function (callback) {
    each.call(this, (value, row, column) => callback(value ?? emptyText(this, row, column), row, column));
  };
}

function emptyText(reference: BaseReferenceObject, row: number, column: number): StringValueObject | null {
  const cell = reference.getCellData(row, column);
  return cell?.v === "" && cell.t === CellValueType.STRING ? StringValueObject.create("") : null;
}
