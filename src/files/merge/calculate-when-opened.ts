import { isSpreadsheet } from "../xml";
import { withAttributes } from "../xml-parts";
import type { MergeContext } from "./merge-context";
import { PartElements, WORKBOOK_ORDER } from "./part-elements";

/** Lets the program that opens the file calculate all of it: it may know what the grid does not. */
export async function calculateWhenOpened({ parts, workbook }: MergeContext): Promise<void> {
  const elements = new PartElements(await parts.text(workbook.part), workbook.part, WORKBOOK_ORDER);
  if (elements.first("calcPr") === undefined) elements.put("calcPr", `<${elements.prefix}calcPr/>`);
  parts.set(workbook.part, withAttributes(elements.text(), workbook.part, (tag) => (isSpreadsheet(tag) && tag.local === "calcPr" ? { fullCalcOnLoad: "1" } : null)));
}
