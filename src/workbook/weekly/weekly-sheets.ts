import { type Food, FOODS } from "../../science/constants/foods";
import { CONSTANTS } from "../../science/constants/all";
import { whence } from "../../science/constants/whence";
import { PERIOD_CHOICES } from "../../science/budget/period";
import { weekly as words } from "../../words/weekly";
import { DATE, EMPTY, even, on, type PlannedSheet } from "./planned-sheet";
import { BALANCE_TOP, LAST_PERIOD_ROW, type Refs } from "./balance-place";
import { chartSheet } from "./chart-sheet";

export type WeeklyKey = keyof typeof words.sheets;
export const WEEKLY_KEYS = Object.keys(words.sheets) as WeeklyKey[];

/** Down to where formulas look: about five years of a row a day. */
export const LAST_LOG_ROW = 2000;
const LOG_HEADING_ROW = 3;
/** Rows of the log's table that stand ready; a table grows by itself when a row is typed below it. */
const READY_ROWS = 60;
/** Where the keeper's own foods begin on the sheet. */
export const OWN_FOODS_ROW = 4 + FOODS.length;
/** Rows for foods of the keeper's own. */
export const OWN_FOOD_ROWS = 15;
const SET_UP_TOP = 5;
const WARNING = { color: "#8A1C0F", fill: "#FCE4DE" };
const QUIET = { color: "#5C5C5C", fill: "#F2F2F2" };

/** Where each part lies on its sheet. */
export const PLACES = {
  setUp: `A${SET_UP_TOP}:B${SET_UP_TOP + words.setUp.rows.length - 1}`,
  log: `A${LOG_HEADING_ROW}:J${LAST_LOG_ROW}`,
  foods: `A3:I${3 + FOODS.length + OWN_FOOD_ROWS}`,
} as const;

/** The weekly sheets under the names that are free in the workbook, and a table name that is free. */
export function weeklySheets(names: Readonly<Record<WeeklyKey, string>>, tables: { readonly log: string; readonly foods: string }): PlannedSheet[] {
  const refs = { log: on(names.log, PLACES.log), setUp: on(names.setUp, PLACES.setUp), foods: on(names.foods, PLACES.foods) };
  const ready = `${on(names.balance, "B3")}=""`;
  return [
    setUpSheet(names.setUp),
    logSheet(names.log, tables.log, names.foods),
    balanceSheet(names.balance, refs),
    chartSheet(names.charts, names.balance, refs, ready),
    foodsSheet(names.foods, tables.foods),
    sourcesSheet(names.sources),
  ];
}

export function setUpSheet(name: string): PlannedSheet {
  const { title, hint, headings, rows } = words.setUp;
  const cells = even([[title], [hint], [""], headings, ...rows.map(([what, how]) => [what, "", how])]);
  const last = SET_UP_TOP + rows.length - 1;
  const rowOf = (what: string): number => SET_UP_TOP + rows.findIndex(([one]) => one === what);
  return {
    ...EMPTY, name, cells,
    widths: [{ columns: "A:A", points: 150 }, { columns: "B:B", points: 110 }, { columns: "C:C", points: 420 }],
    headings: ["A4:C4"],
    inputs: [`B${SET_UP_TOP}:B${last}`],
    wrapped: [`C${SET_UP_TOP}:C${last}`],
    numberFormats: [
      { address: `B${rowOf("NO3 kit steps")}:B${rowOf("PO4 kit steps")}`, format: "@" },
      { address: `B${rowOf("Started")}`, format: DATE },
      { address: `B${rowOf("Dry fraction")}`, format: "0.0%" },
      { address: `B${rowOf("Tissue N")}:B${rowOf("Tissue P")}`, format: "0.00%" },
      { address: `B${rowOf("Retained")}`, format: "0%" },
    ],
    names: [{ name: words.names.setUp, address: PLACES.setUp }],
    frozenRows: 4,
  };
}

function logSheet(name: string, table: string, foods: string): PlannedSheet {
  const { title, hint, headings, foodPrompt, datePrompt, amount, level } = words.log;
  const first = LOG_HEADING_ROW + 1;
  const down = (columns: string): string => columns.split(":").map((column, place) => `${column}${place === 0 ? first : LAST_LOG_ROW}`).join(":");
  const atLeastZero: Excel.DataValidationRule = { decimal: { formula1: 0, operator: "GreaterThanOrEqualTo" } };
  return {
    ...EMPTY, name,
    cells: even([[title], [hint], headings]),
    widths: [{ columns: "A:A", points: 75 }, { columns: "B:B", points: 130 }, { columns: "C:I", points: 95 }, { columns: "J:J", points: 180 }],
    numberFormats: [{ address: down("A:A"), format: DATE }],
    table: { name: table, address: `A${LOG_HEADING_ROW}:J${LOG_HEADING_ROW + READY_ROWS}` },
    names: [{ name: words.names.log, address: PLACES.log }],
    rules: [
      { address: down("A:A"), rule: { date: { formula1: "1990-01-01", operator: "GreaterThan" } }, prompt: datePrompt },
      { address: down("B:B"), rule: { list: { inCellDropDown: true, source: `=${on(foods, `A4:A${3 + FOODS.length + OWN_FOOD_ROWS}`)}` } }, prompt: foodPrompt },
      { address: down("C:C"), rule: atLeastZero, prompt: amount },
      { address: down("F:H"), rule: atLeastZero, prompt: amount },
      { address: down("I:I"), rule: { decimal: { formula1: 0, formula2: 100, operator: "Between" } }, prompt: level },
    ],
    // A figure without a date stands in no period: the missing date shows before the budget complains of it.
    marks: [{ address: down("A:A"), formula: `=AND($A${first}="",COUNTA($C${first}:$I${first})>0)`, ...WARNING }],
    frozenRows: LOG_HEADING_ROW,
    landscape: true,
  };
}

/** Columns of one budget, and a gap before the next. */
const [N_VERDICT, P_FIRST, P_VERDICT] = ["K", "M", "W"];

/** @param refs.log a range, or a call that gives one */
export function balanceSheet(name: string, { log, setUp, foods }: Refs): PlannedSheet {
  const { title, state, ready, periods, periodsHint, latestN, latestP, warnings } = words.balance;
  const budget = (nutrient: "N" | "P"): string => `=IF($B$3="",ALGAL.BUDGET_${nutrient}(${log},${setUp},$B$4,${foods}),"")`;
  const latest = (from: string, verdict: string): string => {
    const [dates, texts] = [`${from}${BALANCE_TOP + 1}:${from}${LAST_PERIOD_ROW}`, `${verdict}${BALANCE_TOP + 1}:${verdict}${LAST_PERIOD_ROW}`];
    return `=IF(COUNT(${dates})=0,"",INDEX(${texts},COUNT(${dates})))`;
  };
  const gap = new Array<string>(P_FIRST.charCodeAt(0) - "A".charCodeAt(0) - 1).fill("");
  const cells = even([
    [title],
    [""],
    [state, `=ALGAL.LOG_MISSING(${log},${setUp},${foods})`, `=IF($B$3="","${ready}","")`],
    [periods, "harvest", periodsHint],
    [latestN, latest("A", N_VERDICT)],
    [latestP, latest(P_FIRST, P_VERDICT)],
    [warnings, `=IF($B$3="",INDEX(ALGAL.BUDGET_WARNINGS(${log},${setUp},${foods},FALSE),1,4),"")`],
    [""],
    [""],
    [budget("N"), ...gap, budget("P")],
  ]);
  return {
    ...EMPTY, name, cells,
    widths: [{ columns: "A:A", points: 130 }, { columns: "B:J", points: 72 }, { columns: "K:K", points: 380 }, { columns: "M:V", points: 72 }, { columns: "W:W", points: 380 }],
    heights: [{ rows: `A${BALANCE_TOP}`, points: 46 }],
    headings: [`A${BALANCE_TOP}:${P_VERDICT}${BALANCE_TOP}`],
    quiet: ["C3:C4"],
    inputs: ["B4"],
    wrapped: [`A${BALANCE_TOP}:${P_VERDICT}${BALANCE_TOP}`, `${N_VERDICT}${BALANCE_TOP}:${N_VERDICT}${LAST_PERIOD_ROW}`, `${P_VERDICT}${BALANCE_TOP}:${P_VERDICT}${LAST_PERIOD_ROW}`],
    numberFormats: [
      { address: `A${BALANCE_TOP + 1}:B${LAST_PERIOD_ROW}`, format: DATE },
      { address: `C${BALANCE_TOP + 1}:J${LAST_PERIOD_ROW}`, format: "0.000" },
      { address: `M${BALANCE_TOP + 1}:N${LAST_PERIOD_ROW}`, format: DATE },
      { address: `O${BALANCE_TOP + 1}:V${LAST_PERIOD_ROW}`, format: "0.0000" },
    ],
    rules: [{ address: "B4", rule: { list: { inCellDropDown: true, source: PERIOD_CHOICES.join(",") } }, prompt: null }],
    marks: [
      { address: "B3", formula: '=$B$3<>""', ...WARNING },
      ...([[N_VERDICT, "A"], [P_VERDICT, P_FIRST]] as const).flatMap(([verdict, from]) => {
        const address = `${from}${BALANCE_TOP + 1}:${verdict}${LAST_PERIOD_ROW}`;
        return [
          { address, formula: `=LEFT($${verdict}${BALANCE_TOP + 1},11)="Unexplained"`, ...WARNING },
          { address, formula: `=LEFT($${verdict}${BALANCE_TOP + 1},11)="Cannot tell"`, ...QUIET },
        ];
      }),
    ],
    frozenRows: BALANCE_TOP,
    landscape: true,
  };
}

export function foodsSheet(name: string, table: string): PlannedSheet {
  const { title, hint, headings } = words.foods;
  const last = 3 + FOODS.length + OWN_FOOD_ROWS;
  const rows = FOODS.map((food) => foodRow(food.name, food, whence(food.source, [food.proteinMark, food.phosphorusMark])));
  return {
    ...EMPTY, name,
    cells: even([[title], [hint], headings, ...rows]),
    widths: [{ columns: "A:A", points: 170 }, { columns: "B:I", points: 68 }, { columns: "J:J", points: 380 }],
    inputs: [`A${OWN_FOODS_ROW}:I${last}`],
    wrapped: [`J4:J${last}`],
    numberFormats: [{ address: `B4:D${last}`, format: "0.0" }, { address: `E4:G${last}`, format: "0" }],
    table: { name: table, address: `A3:J${last}` },
    names: [{ name: words.names.foods, address: PLACES.foods }],
    frozenRows: 3,
    landscape: true,
  };
}

/** One row of the sheet: the figures of a food under a name, and where they come from. */
export const foodRow = (name: string, { proteinPercent: protein, phosphorusMgPer100g: p, factor, portionG }: Food, whence: string): (string | number)[] => [
  name, protein.value, protein.low, protein.high, p.value, p.low, p.high, factor, portionG?.value ?? "", whence,
];

function sourcesSheet(name: string): PlannedSheet {
  const { title, hint, headings } = words.sources;
  const rows = CONSTANTS.map(({ name: constant, value, low, high, unit, mark, source, note }) => [constant, value, low, high, unit, mark, [whence(source, [mark]), note ?? ""].filter(Boolean).join(". ")]);
  return {
    ...EMPTY, name,
    cells: even([[title], [hint], headings, ...rows]),
    widths: [{ columns: "A:A", points: 250 }, { columns: "B:D", points: 65 }, { columns: "E:F", points: 110 }, { columns: "G:G", points: 420 }],
    headings: ["A3:G3"],
    wrapped: [`A4:A${3 + rows.length}`, `G4:G${3 + rows.length}`],
    frozenRows: 3,
    landscape: true,
  };
}
