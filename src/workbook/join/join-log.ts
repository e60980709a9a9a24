import { joinPane as words } from "../../words/join-pane";
import { joinAddress } from "../../functions/cell-address";
import { freeSheetName } from "../put-sizing";
import { FOODS } from "../../science/constants/foods";
import { findFood, foodTable } from "../../science/feed";
import { foodRow, OWN_FOOD_ROWS, OWN_FOODS_ROW } from "../weekly/weekly-sheets";
import { WorkbookProblem } from "../workbook-problem";
import { freeName, putSheets } from "../weekly/put-sheet";
import { besideLog } from "./beside";
import { joinedSheets, partAddresses, ROWS_TOP, setUpCell, type SheetNames } from "./joined-sheets";
import { ADDED_COLUMNS, addedAt, inTheWay, planJoin } from "./join-plan";
import { type JoinPlace, partName, recordXml } from "./join-record";
import { inWorkbook, joinedLogs, look, type Look } from "./look";
import { forgetParts, takeBackBeside } from "./take-back";
import type { DateOrder } from "../../functions/date-text";

/** What the keeper answered. */
export interface JoinWish {
  /** A heading of ours for each column of the log, null: left alone. */
  readonly meanings: readonly (string | null)[];
  readonly dateOrder: DateOrder | null;
  /** Rows of the set-up that are known already: "Volume (L)" to 265. */
  readonly setUp: Readonly<Record<string, string | number>>;
  /** Foods that the log names in words of the keeper's own, each with the name in the built-in table whose figures it takes. */
  readonly foods?: Readonly<Record<string, string>>;
  /** On a sheet of their own, when the cells beside the log are taken. */
  readonly onNewSheet: boolean;
}

export interface JoinedAt {
  /** "Log!K4" */
  readonly at: string;
  /** Of the sheets that were added, the set-up first. */
  readonly sheets: readonly string[];
}

/**
 * Writes the account of a log beside it, and the sheets that belong to it. Nothing is written at all when a cell is in the way.
 * @throws WorkbookProblem with the cell in the way, when the sheet is another than the one that was looked at, or when it is stopped: then nothing is left of it
 */
export async function joinLog(seen: Look, wish: JoinWish, signal?: AbortSignal): Promise<JoinedAt> {
  return inWorkbook(words.refused, async (context) => {
    const now = await look(context, seen.sheet, { row: seen.found.firstDataRow, column: seen.found.dateColumn }).catch((error: unknown) => {
      if (error instanceof WorkbookProblem) return null;
      throw error;
    });
    if (!now || now.table !== seen.table || shapeOf(now) !== shapeOf(seen)) throw new WorkbookProblem(words.changed);
    const place: JoinPlace = wish.onNewSheet ? "sheet" : now.table !== null && now.found.firstDataRow > now.found.top ? "table" : "beside";
    const plan = planJoin(now, now.found, place === "beside");
    if ("refusal" in plan) throw new WorkbookProblem(plan.refusal);
    // A table grows to its right: Excel would move what stands there.
    const { top, bottom, right } = now.found;
    const refusal = place === "table" ? inTheWay(now, { top, bottom, left: right + 1, right: right + ADDED_COLUMNS }) : null;
    if (refusal !== null) throw new WorkbookProblem(refusal);
    const { worksheets, tables, names } = context.workbook;
    worksheets.load("items/name");
    tables.load("items/name");
    names.load("items/name");
    const joins = await joinedLogs(context);
    const id = 1 + Math.max(0, ...joins.map(({ record }) => record.id));
    const used = [...tables.items.map(({ name }) => name), ...names.items.map(({ name }) => name)];
    const sheetNames = freeSheetNames(worksheets.items.map(({ name }) => name), place !== "beside");
    const base = { id, place, columns: now.columns.map(({ heading }, at) => ({ heading, meaning: wish.meanings[at] ?? null })), dateOrder: wish.dateOrder, table: now.table };
    const planned = joinedSheets(now.sheet, plan, base, sheetNames, freeName(words.foodsTable, used));
    await putSheets(context, planned, used, signal, async ([first, , , foodsOnSheet]) => {
      for (const [what, value] of Object.entries(wish.setUp)) {
        const cell = setUpCell(what);
        if (cell && first) first.getRange(cell).values = [[value]];
      }
      Object.entries(wish.foods ?? {}).slice(0, OWN_FOOD_ROWS).forEach(([own, builtIn], place) => {
        const row = OWN_FOODS_ROW + place;
        if (foodsOnSheet) foodsOnSheet.getRange(`A${row}:J${row}`).values = [foodRow(own, findFood(builtIn, BUILT_IN), words.asFood(builtIn))];
      });
      const { remembered, write } = await besideLog(context, now.sheet, now.table, plan, base, sheetNames);
      try {
        for (const [part, address] of partAddresses(sheetNames)) names.add(partName(id, part), rangeIn(context, address));
        await write();
        context.workbook.customXmlParts.add(recordXml({ ...base, ...remembered }));
        await context.sync();
      } catch (error) {
        await takeBackBeside(context, { record: { ...base, ...remembered }, added: plan.added && { sheet: now.sheet, area: plan.added } });
        forgetParts(context, id);
        throw error;
      }
    });
    const at = plan.added && place === "beside" ? addedAt(now.sheet, plan.added) : place === "table" ? `${now.table ?? ""}` : joinAddress(sheetNames.rows ?? "", `A${ROWS_TOP}`);
    return { at, sheets: planned.map(({ name }) => name) };
  });
}

const BUILT_IN = foodTable(FOODS);

/** What must not have changed between looking and writing. */
const shapeOf = ({ found, columns }: Look): string => JSON.stringify([found.top, found.left, found.bottom, found.right, found.firstDataRow, columns.map(({ heading }) => heading)]);

function freeSheetNames(taken: readonly string[], withRows: boolean): SheetNames {
  const { join, balance, charts, foods, rows } = words.sheets;
  const used = [...taken];
  const free = (wanted: string): string => {
    const name = freeSheetName(wanted, used);
    used.push(name);
    return name;
  };
  return { join: free(join), balance: free(balance), charts: free(charts), foods: free(foods), rows: withRows ? free(rows) : null };
}

/** "'Log 2'!$A$1:$B$2" as a range. */
function rangeIn(context: Excel.RequestContext, address: string): Excel.Range {
  const cut = address.lastIndexOf("!");
  const sheet = address.slice(0, cut).replace(/^'|'$/g, "").replace(/''/g, "'");
  return context.workbook.worksheets.getItem(sheet).getRange(address.slice(cut + 1).replace(/\$/g, ""));
}
