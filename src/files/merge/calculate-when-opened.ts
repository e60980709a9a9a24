import { isErrorCode } from "../cell-result";
import { isSpreadsheet } from "../xml";
import { withAttributes } from "../xml-parts";
import type { SheetVersions } from "./cell-contents";
import type { MergeContext } from "./merge-context";
import { PartElements, WORKBOOK_ORDER } from "./part-elements";

/** Whether a formula of the file showed an answer there and the grid shows an error, as of one that reads another workbook. */
export function losesAnswers({ now, stored }: SheetVersions): boolean {
  return [...now].some(([address, { formula, value }]) => {
    const before = stored.get(address);
    return formula !== undefined && before?.formula === formula && isError(value) && !isError(before.value);
  });
}

/** Lets the program that opens the file calculate all of it: it may know what the grid does not. */
export async function calculateWhenOpened({ parts, workbook }: MergeContext): Promise<void> {
  const elements = new PartElements(await parts.text(workbook.part), workbook.part, WORKBOOK_ORDER);
  if (elements.first("calcPr") === undefined) elements.put("calcPr", `<${elements.prefix}calcPr/>`);
  parts.set(workbook.part, withAttributes(elements.text(), workbook.part, (tag) => (isSpreadsheet(tag) && tag.local === "calcPr" ? { fullCalcOnLoad: "1" } : null)));
}

const isError = (value: unknown): boolean => (typeof value === "string" ? isErrorCode(value) : typeof value === "object" && value !== null);
