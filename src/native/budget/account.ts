import { budgetRow } from "../../functions/budget-functions";
import { foodsFrom } from "../../functions/foods-range";
import { logFrom } from "../../functions/log-range";
import { budget, type BudgetPeriod } from "../../science/budget/budget";
import type { Log, SetUp } from "../../science/budget/log";
import { PERIOD_CHOICES, periodsOf, type Period, type PeriodChoice } from "../../science/budget/period";
import { budgetTerms, type Terms } from "../../science/budget/terms";
import { firstOrder } from "../../science/budget/uncertainty";
import { nutrientOf, type Nutrient } from "../../science/nutrient-forms";
import { words as budgetWords } from "../../words/budget";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { FoodsBlock } from "../foods";
import { figureText, type GivenRange } from "../given";
import type { BlockAnswer, Rule } from "../rule";
import { BUDGET_DEFAULT } from "../../science/constants/practice";
import { changeTable, feedTable, harvestTable, otherTable, type Around } from "./entries";
import { cropTable } from "./crop";
import { LogCells, valuesOf } from "./log-cells";
import { QuantityTable } from "./quantities";
import { Settings } from "./settings";
import { numberText, SetUpCells } from "./set-up-cells";
import { SetUpQuantities } from "./set-up-quantities";
import { foodSlope, retainedSlope, screenSlopes, slopeTable, testSlopes, topUpSlope, volumeSlope, type AccountQuantity } from "./slopes";
import { Table } from "./table";
import { takenOut } from "./taken-out";
import { readingTable, statedConcentration } from "./test-readings";
import { waterCourse } from "./water";

type PeriodColumn = "number" | "from" | "to" | "feedIn" | "otherIn" | "harvestOut" | "changeOut" | "otherOut" | "storeChange" | "unexplained" | "u" | "verdict" | "own" | "first" | "same" | "sentence";
type PeriodTable = Table<PeriodColumn>;
const FIGURES = ["feedIn", "otherIn", "harvestOut", "changeOut", "otherOut", "storeChange"] as const;
/** A figure that differs by less is the same, as a share of the largest of its account. */
const SAME = 1e-9;

/**
 * BUDGET_N or BUDGET_P as plain formulas on a sheet of its own: every entry, the course of each test between readings and changes, what
 * stands on the screens, the first-order uncertainty. The verdict, and an uncertainty that comes from random draws, are shown as long
 * as the figures are those of the hand-over.
 */
export const budgetRule = (nutrient: Nutrient): Rule => ({
  kind: "block",
  write(args, workspace) {
    const [logRange, setUpRange, period, foodsRange, headings] = [0, 1, 2, 3, 4].map((place) => args[place] ?? null);
    const choice = choiceOf(period ?? null);
    if (!logRange || !setUpRange || choice === null || workspace.book.date1904) return null;
    const { log, setUp } = logFrom(valuesOf(logRange), valuesOf(setUpRange), nutrient, foodsFrom(valuesOf(foodsRange ?? null)));
    if (log.calendarOffset !== 0) return null;
    const shown = headings?.rows[0]?.[0]?.value;
    const draft = workspace.account([]);
    draft.put(0, 0, words.title(`${nutrient}, ${logRange.text}`), "title");
    draft.put(1, 0, words.note, "quiet");
    return new Account(draft, log, setUp, choice, logRange, setUpRange).write(workspace, foodsRange ?? null, !(shown === false || shown === 0));
  },
});

function choiceOf(period: GivenRange | null): PeriodChoice | null {
  const value = period?.rows[0]?.[0]?.value ?? "harvest";
  const written = String(value).trim().toLowerCase() || "harvest";
  return PERIOD_CHOICES.find((one) => one === written) ?? null;
}

class Account {
  private readonly periods: readonly Period[];
  private readonly cells: LogCells;
  private readonly setUpCells: SetUpCells;
  private readonly table: PeriodTable;

  constructor(private readonly draft: Draft, private readonly log: Log, private readonly setUp: SetUp, private readonly choice: PeriodChoice, logRange: GivenRange, setUpRange: GivenRange) {
    this.periods = periodsOf(log, setUp, choice);
    this.cells = new LogCells(logRange);
    this.setUpCells = new SetUpCells(setUpRange);
    const headings = budgetWords.headings(log.nutrient);
    const names: readonly PeriodColumn[] = ["from", "to", ...FIGURES, "unexplained", "u", "verdict"];
    const { number, u, same, verdict, own } = words.periodHeadings;
    this.table = new Table(draft, 0, words.periods, { number, ...(Object.fromEntries(names.map((name, place) => [name, headings[place] ?? ""])) as Omit<Record<PeriodColumn, string>, "number">), own, first: u, same, sentence: verdict }, this.periods.length);
  }

  write(workspace: Parameters<Extract<Rule, { kind: "block" }>["write"]>[1], foodsRange: GivenRange | null, withHeadings: boolean): BlockAnswer {
    const { draft, log, setUp, cells, setUpCells, table, periods } = this;
    const { nutrient } = log;
    const terms = budgetTerms(log, setUp, periods);
    const settings = new Settings(draft, table.next, workspace, setUpCells);
    const unchanged = settings.put(words.settingNames.unchanged, `IF(AND(${[...cells.unchanged, ...setUpCells.unchanged].join(",")}),1,NA())`);
    const foodNames = [...new Map(log.feeds.map(({ food }) => [food, food.name])).values()];
    const tests = log.series.map((series, place) => ({ series, column: cells.of("reading").filter((one) => nutrientOf(one.column.basis.form) === nutrient)[place] })).filter(({ series }) => series.entries.length > 0);

    const quantities = new QuantityTable(draft, settings.next, 3 + 4 * setUp.units.length + foodNames.length + 2 * tests.length);
    const stated = new SetUpQuantities(setUpCells, quantities, workspace.sources, nutrient);
    const volume = stated.volume();
    const retained = stated.retained();
    const topUp = stated.topUp(statedConcentration(setUpCells, settings, workspace, null));
    const screens = setUp.units.map((unit) => stated.screen(unit));
    const block = FoodsBlock.of(workspace, foodsRange);
    const foods = new Map(foodNames.map((name) => [name, stated.food(name, block)]));
    const share = (name: "feedShare" | "harvestShare" | "changeShare", key: string): string => settings.put(words.settingNames[name], stated.setting(key, BUDGET_DEFAULT[name]));

    const around: Around = { draft, log, cells, periodOf: (day) => this.periodOf(day) };
    const feeds = feedTable(around, quantities.next, foods, block, retained, share("feedShare", "feed error"));
    const harvests = harvestTable(around, feeds.next, screens, share("harvestShare", "harvest error"));
    const changes = changeTable(around, harvests.next, volume);
    const others = otherTable(around, changes.next, (one) => ("form" in one.column && nutrientOf(one.column.form) === nutrient ? settings.elementMgPerL({ unit: "mg/L", form: one.column.form }) : ""));

    let left = others.next;
    const courses = tests.map(({ series, column }) => {
      if (!column) throw new Error("a series without a column");
      const { form } = column.column.basis;
      const hasKit = setUpCells.find(`${form} kit steps`) !== null;
      const scale = stated.scale(series.name, form, hasKit);
      const incoming = stated.incoming(series.name, form, statedConcentration(setUpCells, settings, workspace, { form, factor: settings.elementMgPerL(column.column.basis) }));
      const readings = readingTable(draft, left, log, series, column, cells, setUpCells, settings, workspace);
      return { series, scale, incoming, readings, left: (left = readings.next) };
    });
    this.putDays(harvests, courses.map(({ series, readings }) => ({ series, readings })), unchanged);
    const days = { from: (k: number) => table.cell(k, "from"), to: (k: number) => table.cell(k, "to") };
    const waters = courses.map(({ series, readings, incoming }) => {
      const course = waterCourse(draft, left, log, series, readings, changes, periods, days, incoming);
      const taken = takenOut(draft, course.table.next, course);
      left = taken.next;
      return { course, taken };
    });
    const crop = cropTable(draft, left, log, setUp, periods, harvests, screens, { ...days, started: (place) => this.startedDay(setUp, place, unchanged), area: (place) => this.litArea(place) }, workspace.sources);

    const incomingOf = courses.map(({ incoming }) => incoming);
    log.changes.forEach((_, row) => {
      const net = waters.map(({ taken }, s) => `(${taken.cell(row, "value")}-${incomingOf[s]?.best ?? "0"})`).join("+") || "0";
      changes.formula(row, "net", `(${net})*${changes.cell(row, "litres")}/1000`);
      changes.formula(row, "variance", `(${changes.cell(row, "net")}*${share("changeShare", "water change error")})^2/3`);
    });
    const span = `(${this.dayOf(log.lastDay)}-${this.dayOf(log.firstDay)})`;
    const drift = settings.put(words.settingNames.drift, `1000*(SUM(${feeds.column("arrived")})+SUMIF(${others.column("what")},"${words.entries.kinds.otherIn}",${others.column("amount")}))/(${span}*${volume.best})/${Math.max(1, tests.length)}`);

    // In the order in which the budget writes them, so that its terms can name them by place.
    const tables = { feeds, harvests, changes, others, crop, volume, retained, foods };
    const all: AccountQuantity[] = [
      { name: words.names.volume, cells: volume, slope: volumeSlope({ courses: waters.map(({ course }) => course) }) },
      { name: words.names.retained, cells: retained, slope: retainedSlope(tables) },
      { name: words.names.topUp, cells: topUp, slope: topUpSlope(tables) },
      ...screens.flatMap((screen, place) => {
        const slopes = screenSlopes(tables, screen, place);
        const shown = words.names.screen(screen.name);
        return [
          { name: words.names.drained(shown), cells: screen.drained, slope: slopes.drained },
          { name: words.names.pressed(shown), cells: screen.pressed, slope: slopes.pressed },
          { name: words.names.tissue(shown), cells: screen.tissue, slope: slopes.tissue },
          { name: words.names.crop(shown), cells: screen.cropGuess, slope: slopes.cropGuess },
        ];
      }),
      ...[...foods].map(([name, food]) => ({ name: words.names.food(name), cells: food, slope: foodSlope(tables, name) })),
      ...courses.flatMap(({ series, scale, incoming, readings }, s) => {
        const water = waters[s];
        if (!water) return [];
        const slopes = testSlopes(tables, water.course, water.taken, incoming);
        return [
          { name: words.names.scale(series.name), cells: scale, slope: slopes.scale },
          { name: words.names.incoming(series.name), cells: incoming, slope: slopes.incoming },
          ...series.entries.map((_, place) => ({ name: words.readings(series.name), cells: { u: readings.cell(place, "u") }, slope: slopes.reading(place) })),
        ];
      }),
    ];
    if (all.length !== terms.quantities.length) throw new Error("the account and its terms differ");
    const slopes = slopeTable(draft, crop.next, all, terms.periods);

    const rows = budget(log, setUp, this.choice);
    rows.forEach((row, k) => this.putPeriod(k, row, terms, (part) => {
      const number = k + 1;
      const sum = (of: { column(name: string): string }, column: string): string => `SUMIF(${of.column("period")},${number},${of.column(column)})`;
      const other = (kind: keyof typeof words.entries.kinds): string => `SUMIFS(${others.column("amount")},${others.column("period")},${number},${others.column("what")},"${words.entries.kinds[kind]}")`;
      const withdrawn = (of: string): string => `SUMPRODUCT((${changes.column("period")}=${number})*${changes.column("litres")}*${of})`;
      const water = (s: number, row: number | undefined, column: "value" | "drift"): string => waters[s]?.course.table.cell(row ?? 0, column) ?? "0";
      switch (part) {
        case "feedIn":
          return sum(feeds as never, "arrived");
        case "otherIn":
          return [other("otherIn"), `${other("topUp")}/1000*${topUp.best}`, ...incomingOf.map(({ best }) => `${sum(changes as never, "litres")}/1000*${best}`)].join("+");
        case "harvestOut":
          return sum(harvests as never, "out");
        case "changeOut":
          return waters.map(({ taken }) => `${withdrawn(taken.column("value"))}/1000`).join("+") || "0";
        case "otherOut":
          return other("otherOut");
        case "storeChange":
          return [sum(crop as never, "best"), ...waters.map(({ course }, s) => `${volume.best}*(${water(s, course.ends[k], "value")}-${water(s, course.starts[k], "value")})/1000`)].join("+");
        case "own":
          return [
            ...[feeds, harvests, changes, crop].map((of) => sum(of as never, "variance")),
            ...waters.flatMap(({ course, taken }, s) => [
              `SUMPRODUCT((${changes.column("period")}=${number})*(${changes.column("litres")}*${taken.column("drift")})^2)*(${drift}/1000)^2/3`,
              `(${volume.best}*${drift}/1000)^2*(${water(s, course.starts[k], "drift")}^2+${water(s, course.ends[k], "drift")}^2)/3`,
            ]),
          ].join("+");
        default:
          return `SQRT(${table.cell(k, "own")}+${sum(slopes as never, "variance")})`;
      }
    }));
    const top = withHeadings ? 4 : 5;
    return { text: draft.range(top, 1, 4 + periods.length, 11), rows: periods.length + (withHeadings ? 1 : 0), columns: 11, cell: (row, column) => draft.address(top + row, 1 + column) };
  }

  /** The figures of one period; `formula` writes each part. */
  private putPeriod(k: number, row: BudgetPeriod, terms: Terms, formula: (part: (typeof FIGURES)[number] | "own" | "first") => string): void {
    const { table } = this;
    const at = (column: PeriodColumn): string => table.cell(k, column);
    table.put(k, "number", k + 1);
    const shown = budgetRow(row, this.log.nutrient);
    const sentence = String(shown[10] ?? "");
    for (const part of FIGURES) if (row.parts[part] !== null) table.formula(k, part, formula(part));
    if (row.unexplained === null || row.u === null) {
      for (const part of FIGURES) if (row.parts[part] === null) table.formula(k, part, '""');
      table.formula(k, "unexplained", '""');
      table.formula(k, "u", '""');
      table.put(k, "verdict", sentence);
      return;
    }
    table.formula(k, "unexplained", `${at("feedIn")}+${at("otherIn")}-${at("harvestOut")}-${at("changeOut")}-${at("otherOut")}-${at("storeChange")}`);
    const period = terms.periods[k];
    if (!period) return;
    const first = firstOrder(period, terms.quantities);
    table.formula(k, "own", formula("own"));
    table.formula(k, "first", formula("first"));
    const largest = Math.max(first.u, ...FIGURES.map((part) => Math.abs(row.parts[part] ?? 0)));
    const near = (cell: string, value: number): string => `ABS(${cell}-${value < 0 ? `(${figureText(value)})` : figureText(value)})<=${figureText(largest * SAME)}`;
    table.formula(k, "same", `IF(AND(${near(at("unexplained"), row.unexplained)},${near(at("first"), first.u)}),1,0)`);
    table.put(k, "sentence", sentence);
    // An uncertainty of first order follows the entries; one from draws is a value that holds while they stay.
    table.formula(k, "u", row.u === first.u ? at("first") : `IF(${at("same")}=1,${figureText(row.u)},NA())`);
    table.formula(k, "verdict", `IF(${at("same")}=1,${at("sentence")},"${words.changed}")`);
  }

  /** The ends of the periods. */
  private putDays(harvests: ReturnType<typeof harvestTable>, tests: readonly { readonly series: Log["series"][number]; readonly readings: ReturnType<typeof readingTable> }[], unchanged: string): void {
    const { table, periods, log, setUp, choice } = this;
    periods.forEach(({ to }, k) => {
      table.formula(k, "from", k === 0 ? `${this.dayOf(log.firstDay)}*${unchanged}` : table.cell(k - 1, "to"));
      const start = table.cell(0, "from");
      const end = (): string => {
        if (k === periods.length - 1) return this.dayOf(log.lastDay);
        if (choice === "week") return `${start}+${7 * (k + 1)}`;
        if (choice === "month") return `DATE(YEAR(${start}),MONTH(${start})+${k + 1},1)`;
        if (choice === "harvest") return harvests.cell(log.harvests.findIndex((harvest) => harvest.day === to && harvest.unit === setUp.periodUnit), "day");
        const test = tests.find(({ series }) => series.entries.some(({ day }) => day === to));
        return test?.readings.cell(test.series.entries.findIndex(({ day }) => day === to), "day") ?? "NA()";
      };
      table.formula(k, "to", end());
    });
  }

  /** The number of the period that holds a day. */
  private periodOf(day: string): string {
    const { table, periods } = this;
    const inner = periods.length - 1;
    if (inner === 0) return "1";
    const opens = periods[0]?.withTo === false;
    return `1+SUMPRODUCT(--(${table.column("to", 0, inner - 1)}<${opens ? "=" : ""}${day}))`;
  }

  private dayOf(day: number): string {
    const row = this.log.rows.find((one) => one.day === day)?.row;
    if (row === undefined) throw new Error("no row has that day");
    return this.cells.day(row);
  }

  private startedDay(setUp: SetUp, place: number, unchanged: string): string {
    const unit = setUp.units[place];
    if (!unit || unit.startedDay === null) return `${this.dayOf(this.log.firstDay)}*${unchanged}`;
    const row = this.setUpCells.find(...(unit.name ? [`started ${unit.name}`, "started"] : ["started"]));
    return row ? numberText(row.given, () => unit.startedDay) : "NA()";
  }

  private litArea(place: number): string {
    const name = this.setUp.units[place]?.name ?? "";
    const row = this.setUpCells.find(...(name ? [`lit area ${name}`, "lit area"] : ["lit area"]));
    return row ? `${numberText(row.given)}${/^cm2$/i.test(row.unit) ? "/10000" : ""}` : "NA()";
  }
}

