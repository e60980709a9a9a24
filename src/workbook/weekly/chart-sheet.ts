import { weekly as words } from "../../words/weekly";
import { BALANCE_TOP, type Refs } from "./balance-place";
import { DATE, EMPTY, even, on, type PlannedChart, type PlannedSheet } from "./planned-sheet";

const TOP = 4;
/** As far as a chart looks. A column chart leaves room for every row that it names, so it looks at fewer. */
const [LAST_POINT, LAST_COLUMN] = [400, 24];

/** Columns of the tables, right of the charts: the charts are what is looked at. */
const NO3 = ["R", "S", "T", "U"] as const;
const PO4 = ["W", "X", "Y", "Z"] as const;
const [HARVEST, GROWTH, LAST_HARVEST] = ["AB", "AG", "AJ"];
/** What came in counts up and what went out down: its columns, and where each stands on the sheet of the balance. */
const [PERIOD, FLOWS, LAST] = ["AL", [["AM", "C", 1], ["AN", "D", 1], ["AO", "E", -1], ["AP", "F", -1], ["AQ", "G", -1]] as const, "AQ"];
const BEFORE_TABLES = new Array<string>(17).fill("");

/** The charts, and the tables behind them: readings with their limits, nitrogen in and out, growth by harvest. */
export function chartSheet(name: string, balance: string, { log, setUp }: Refs, ready: string): PlannedSheet {
  const { title, hint, no3, po4, nitrogen, growth, axes, flows, to } = words.charts;
  const whenReady = (formula: string): string => `=IF(${ready},${formula},"")`;
  const row = [
    ...BEFORE_TABLES,
    whenReady(`ALGAL.READING_SERIES(${log},${setUp},"NO3")`), "", "", "", "",
    whenReady(`ALGAL.READING_SERIES(${log},${setUp},"PO4")`), "", "", "", "",
    whenReady(`ALGAL.HARVEST_SERIES(${log},${setUp})`), "", "", "", "", "", "", "", "", "",
    to, ...flows,
  ];
  const firstRow = BALANCE_TOP + 1;
  const periods = Array.from({ length: LAST_COLUMN }, (_, place) => {
    // The latest of them, however long the log.
    const all = (column: string): string => on(balance, `${column}${firstRow}:${column}${LAST_POINT}`);
    const cell = (column: string): string => `INDEX(${all(column)},MAX(0,COUNT(${all("B")})-${LAST_COLUMN})+${place + 1})`;
    const flow = (column: string, sign: number): string => `=IF(ISNUMBER(${cell(column)}),${sign < 0 ? "-" : ""}${cell(column)},"")`;
    return [...new Array<string>(row.indexOf(to)).fill(""), flow("B", 1), ...FLOWS.map(([, column, sign]) => flow(column, sign))];
  });
  const readings = (chartTitle: string, [x, low, value, high]: readonly string[], from: string, to: string): PlannedChart => ({
    title: chartTitle, type: "XYScatterLines", xTitle: axes.date, yTitle: axes.concentration, sheet: name, from, to,
    x: `${x}${TOP + 1}:${x}${LAST_POINT}`,
    series: [["lowest", low], ["value", value], ["highest", high]].map(([label, column]) => ({ name: label ?? "", values: `${column}${TOP + 1}:${column}${LAST_POINT}` })),
  });
  const period = (column: string): string => `${column}${TOP + 1}:${column}${TOP + LAST_COLUMN}`;
  return {
    ...EMPTY, name,
    cells: even([[title], [hint], [""], row, ...periods]),
    widths: [{ columns: "A:P", points: 52 }, { columns: `${NO3[0]}:${LAST}`, points: 125 }],
    headings: [`${NO3[0]}${TOP}:${LAST_HARVEST}${TOP}`, `${PERIOD}${TOP}:${LAST}${TOP}`],
    numberFormats: [NO3[0], PO4[0], HARVEST, PERIOD].map((column) => ({ address: `${column}${TOP + 1}:${column}${LAST_POINT}`, format: DATE })),
    frozenRows: TOP,
    landscape: true,
    charts: [
      readings(no3, NO3, "A5", "H20"),
      readings(po4, PO4, "I5", "P20"),
      {
        title: nitrogen, type: "ColumnStacked", xTitle: axes.date, yTitle: axes.grams, sheet: name, from: "A22", to: "H37", x: period(PERIOD),
        series: FLOWS.map(([column], place) => ({ name: flows[place] ?? "", values: period(column) })),
      },
      {
        title: growth, type: "ColumnClustered", xTitle: axes.date, yTitle: axes.growth, sheet: name, from: "I22", to: "P37",
        x: `${HARVEST}${TOP + 1}:${HARVEST}${TOP + LAST_COLUMN}`,
        series: [{ name: growth, values: `${GROWTH}${TOP + 1}:${GROWTH}${TOP + LAST_COLUMN}` }],
      },
    ],
  };
}
