import { weekly as words } from "../../words/weekly";
import { BALANCE_TOP, type Refs } from "./balance-place";
import { DATE, EMPTY, even, type PlannedChart, type PlannedSheet } from "./planned-sheet";

const TOP = 4;
/** As far as a chart looks. A column chart leaves room for every row that it names, so it looks at fewer. */
const [LAST_POINT, LAST_COLUMN] = [400, 24];

/** The tables behind the charts, and the charts: readings with their limits, nitrogen in and out, growth by harvest. */
export function chartSheet(name: string, balance: string, { log, setUp }: Refs, ready: string): PlannedSheet {
  const { title, hint, no3, po4, nitrogen, growth, axes } = words.charts;
  const whenReady = (formula: string): string => `=IF(${ready},${formula},"")`;
  const row = [
    whenReady(`ALGAL.READING_SERIES(${log},${setUp},"NO3")`), "", "", "", "",
    whenReady(`ALGAL.READING_SERIES(${log},${setUp},"PO4")`), "", "", "", "",
    whenReady(`ALGAL.HARVEST_SERIES(${log},${setUp})`), "", "", "", "", "", "", "", "",
  ];
  const readings = (chartTitle: string, [x, low, value, high]: readonly string[], from: string, to: string): PlannedChart => ({
    title: chartTitle, type: "XYScatterLines", xTitle: axes.date, yTitle: axes.concentration, sheet: name, from, to,
    x: `${x}${TOP + 1}:${x}${LAST_POINT}`,
    series: [["lowest", low], ["value", value], ["highest", high]].map(([label, column]) => ({ name: label ?? "", values: `${column}${TOP + 1}:${column}${LAST_POINT}` })),
  });
  const firstRow = BALANCE_TOP + 1;
  const period = (column: string): string => `${column}${firstRow}:${column}${firstRow + LAST_COLUMN - 1}`;
  return {
    ...EMPTY, name,
    cells: even([[title], [hint], [""], row]),
    widths: [{ columns: "A:S", points: 66 }],
    headings: [`A${TOP}:S${TOP}`],
    wrapped: [`A${TOP}:S${TOP}`],
    numberFormats: ["A", "F", "K"].map((column) => ({ address: `${column}${TOP + 1}:${column}${LAST_POINT}`, format: DATE })),
    frozenRows: TOP,
    landscape: true,
    charts: [
      readings(no3, ["A", "B", "C", "D"], "U2", "AD18"),
      readings(po4, ["F", "G", "H", "I"], "U20", "AD36"),
      {
        title: nitrogen, type: "ColumnStacked", xTitle: axes.date, yTitle: axes.grams, sheet: balance, from: "AF2", to: "AO18", x: period("B"),
        series: ([["feed in", "C"], ["other in", "D"], ["harvest out", "E"], ["water change out", "F"], ["other out", "G"]] as const).map(([label, column]) => ({ name: label, values: period(column) })),
      },
      {
        title: growth, type: "ColumnClustered", xTitle: axes.date, yTitle: axes.growth, sheet: name, from: "AF20", to: "AO36",
        x: `K${TOP + 1}:K${TOP + LAST_COLUMN}`,
        series: [{ name: growth, values: `P${TOP + 1}:P${TOP + LAST_COLUMN}` }],
      },
    ],
  };
}
