import { growth } from "../words/growth";
import { Problem } from "../science/problem";
import { cellsOf, type Argument } from "./arguments";
import { isCellError } from "./cell-error";
import { serialOf } from "./dates";

/**
 * A date as the workbook's own serial. A date typed as text is refused: which day it is depends on the workbook's
 * date system (1900 or 1904), and a function alone does not know it.
 */
export const date = (name: string, given: unknown, blank?: number): Argument<number> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => {
    if (isCellError(cell)) throw cell;
    const serial = typeof cell === "number" ? serialOf(cell, 0) : null;
    if (serial === null) throw new Problem("value", growth.dateWanted(name, cell));
    return serial;
  },
  blank,
});
