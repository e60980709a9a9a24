import { joinPane as words } from "../../words/join-pane";
import { freeSheetName } from "../put-sizing";
import { WorkbookProblem } from "../workbook-problem";
import { DATE } from "../weekly/planned-sheet";
import { joinLog, type JoinedAt } from "./join-log";
import { inWorkbook, lookAtSelection, calendarOffsetIn } from "./look";
import { SAMPLE_SET_UP, sampleRows } from "./sample-log";

const HEADING_ROW = 3;
const MS_A_DAY = 86_400_000;
/** 1 January 1970 in the date system of 1900. */
const EPOCH_SERIAL = 25569;

/**
 * Adds a sheet with an invented log that ends today, and joins it as a keeper's own would be.
 * @param today milliseconds since 1970
 * @throws WorkbookProblem when Excel refuses, or it is stopped: then nothing is left of it
 */
export async function putSample(today: number, signal?: AbortSignal): Promise<JoinedAt & { readonly sheet: string }> {
  const sheet = await inWorkbook(words.refused, async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    const offset = await calendarOffsetIn(context);
    const name = freeSheetName(words.sample.sheet, worksheets.items.map((one) => one.name));
    const added = worksheets.add(name);
    const rows = sampleRows(Math.floor(today / MS_A_DAY) + EPOCH_SERIAL - offset);
    added.getRange(`A${HEADING_ROW + 1}:A${HEADING_ROW + rows.length}`).numberFormat = DATE as unknown as string[][];
    added.getRange("A1").values = [[words.sample.title]];
    added.getRange("A1").format.font.bold = true;
    added.getRange(`A${HEADING_ROW}:G${HEADING_ROW + rows.length}`).values = [[...words.sample.headings], ...rows];
    added.getRange(`A${HEADING_ROW}:G${HEADING_ROW}`).format.font.bold = true;
    added.getRange(`A${HEADING_ROW}:G${HEADING_ROW}`).format.wrapText = true;
    added.getRange("A:B").format.columnWidth = 90;
    added.freezePanes.freezeRows(HEADING_ROW);
    added.activate();
    added.getRange(`A${HEADING_ROW + 1}`).select();
    await context.sync();
    return name;
  });
  try {
    const seen = await lookAtSelection();
    if (seen.sheet !== sheet) throw new WorkbookProblem(words.changed);
    const joined = await joinLog(seen, { meanings: seen.columns.map(({ meaning }) => meaning), dateOrder: null, setUp: SAMPLE_SET_UP, onNewSheet: false }, signal);
    return { ...joined, sheet };
  } catch (error) {
    await inWorkbook(words.refused, async (context) => {
      context.workbook.worksheets.getItemOrNullObject(sheet).delete();
      await context.sync();
    });
    throw error;
  }
}
