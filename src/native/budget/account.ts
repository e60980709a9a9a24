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
import type { Workspace } from "../workspace";
import { BUDGET_DEFAULT } from "../../science/constants/practice";
import { litArea, putChecks, startedDay } from "./account-checks";
import { ANSWER, type AnswerTable, FIGURES, type Gates, type PeriodColumn, type PeriodTable, putAnswer, sameFigures } from "./answer";
import { Checks } from "./checks";
import { changeTable, feedTable, harvestTable, otherTable, type Around } from "./entries";
import { cropTable } from "./crop";
import { LogCells, valuesOf } from "./log-cells";
import type { LogChecks } from "./log-state";
import { PeriodDays } from "./period-days";
import { QuantityTable } from "./quantities";
import { Settings } from "./settings";
import { SetUpCells } from "./set-up-cells";
import { SetUpQuantities } from "./set-up-quantities";
import { foodSlope, retainedSlope, screenSlopes, slopeTable, testSlopes, topUpSlope, volumeSlope, type AccountQuantity } from "./slopes";
import { Table } from "./table";
import { takenOut } from "./taken-out";
import { readingTable, statedConcentration } from "./test-readings";
import { waterCourse } from "./water";

/** Of the answer's columns, in characters: the number, the days, the figures, the verdict. */
const WIDTHS = [8, 11, 11, 18, 18, 18, 18, 18, 18, 18, 22, 70];
/**
 * BUDGET_N or BUDGET_P as plain formulas on a sheet of its own: every entry, the course of each test between readings and changes, what
 * stands on the screens, the first-order uncertainty. All of the answer is an error once a check finds the log or the set-up to be one
 * that the formulas do not follow. The verdict, and an uncertainty that comes from random draws, are shown as long as nothing was changed.
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
    const draft = workspace.account(WIDTHS);
    draft.put(0, 0, words.title(`${nutrient}, ${logRange.text}`), "title");
    draft.put(1, 0, words.note, "quiet");
    return new Account(draft, log, setUp, choice, logRange, setUpRange).write(workspace, { foods: foodsRange ?? null, single: [period ?? null, headings ?? null] }, !(shown === false || shown === 0));
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
  private readonly answer: AnswerTable;
  private readonly table: PeriodTable;
  private readonly days: PeriodDays;
  private readonly checks: LogChecks = { state: new Checks(), values: new Checks() };

  constructor(private readonly draft: Draft, private readonly log: Log, private readonly setUp: SetUp, private readonly choice: PeriodChoice, logRange: GivenRange, setUpRange: GivenRange) {
    this.periods = periodsOf(log, setUp, choice);
    this.cells = new LogCells(logRange);
    this.setUpCells = new SetUpCells(setUpRange);
    const headings = budgetWords.headings(log.nutrient);
    const shown = Object.fromEntries(ANSWER.map((name, place) => [name, headings[place] ?? ""])) as Record<(typeof ANSWER)[number], string>;
    const { own, u: first, draws, same, verdict: sentence } = words.periodHeadings;
    this.answer = new Table(draft, 0, words.answer, { number: words.number, ...shown }, this.periods.length);
    const { from, to, feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange, unexplained } = shown;
    this.table = new Table(draft, this.answer.next, words.periods, { from, to, feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange, unexplained, own, first, draws, same, sentence }, this.periods.length);
    this.days = new PeriodDays(draft, this.table.next, log, setUp, this.cells, this.periods, choice, this.table);
  }

  write(workspace: Workspace, { foods: foodsRange, single }: { readonly foods: GivenRange | null; readonly single: readonly (GivenRange | null)[] }, withHeadings: boolean): BlockAnswer {
    const { draft, log, setUp, cells, setUpCells, table, periods, checks } = this;
    const { nutrient } = log;
    const terms = budgetTerms(log, setUp, periods);
    const settings = new Settings(draft, this.days.next, workspace, setUpCells);
    const foodNames = [...new Map(log.feeds.map(({ food }) => [food, food.name])).values()];
    const tests = log.series.map((series, place) => ({ series, column: cells.of("reading").filter((one) => nutrientOf(one.column.basis.form) === nutrient)[place] })).filter(({ series }) => series.entries.length > 0);

    const quantities = new QuantityTable(draft, settings.next, 3 + 4 * setUp.units.length + foodNames.length + 2 * tests.length);
    const stated = new SetUpQuantities(setUpCells, quantities, workspace.sources, nutrient, checks.state);
    const volume = stated.volume();
    const retained = stated.retained();
    const topUp = stated.topUp(statedConcentration(setUpCells, settings, workspace, null));
    const screens = setUp.units.map((unit) => stated.screen(unit));
    const block = FoodsBlock.of(workspace, foodsRange);
    const foods = new Map(foodNames.map((name) => [name, stated.food(name, block)]));
    const share = (name: "feedShare" | "harvestShare" | "changeShare", key: string): string => settings.put(words.settingNames[name], stated.setting(key, BUDGET_DEFAULT[name]));

    const around: Around = { draft, log, cells, periodOf: (day) => this.days.periodOf(day) };
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
    this.days.put(harvests, courses.map(({ series, readings }) => ({ series, readings })));
    const days = { from: (k: number) => table.cell(k, "from"), to: (k: number) => table.cell(k, "to") };
    const waters = courses.map(({ series, readings, incoming }) => {
      const course = waterCourse(draft, left, log, series, readings, changes, periods, days, incoming);
      const taken = takenOut(draft, course.table.next, course);
      left = taken.next;
      return { course, taken };
    });
    const crop = cropTable(draft, left, log, setUp, periods, harvests, screens, { ...days, started: (place) => startedDay(setUpCells, setUp, place, this.days), area: (place) => litArea(setUpCells, setUp, place) }, workspace.sources);

    const incomingOf = courses.map(({ incoming }) => incoming);
    log.changes.forEach((_, row) => {
      const net = waters.map(({ taken }, s) => `(${taken.cell(row, "value")}-${incomingOf[s]?.best ?? "0"})`).join("+") || "0";
      changes.formula(row, "net", `(${net})*${changes.cell(row, "litres")}/1000`);
      changes.formula(row, "variance", `(${changes.cell(row, "net")}*${share("changeShare", "water change error")})^2/3`);
    });
    const span = `(${this.days.last}-${this.days.first})`;
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
          ...series.entries.map((_, place) => ({ name: words.readings(series.name), cells: { u: readings.cell(place, "u") }, below: slopes.below(place, readings.cell(place, "below")), slope: slopes.reading(place) })),
        ];
      }),
    ];
    if (all.length !== terms.quantities.length) throw new Error("the account and its terms differ");
    const slopes = slopeTable(draft, crop.next, all, terms.periods);

    const sums = [quantities.sum, ...[feeds.column("arrived"), harvests.column("out"), changes.column("net"), others.column("amount"), crop.column("best"), ...courses.map(({ readings }) => readings.column("u")), ...waters.map(({ course }) => course.table.column("day"))].map((column) => `SUM(${column})`)];
    checks.state.add(words.checks.entries, ...sums.map((sum) => `ISNUMBER(${sum})`));
    log.changes.forEach((change, row) => {
      // Where all the water was other water, nothing of a reading is left to follow.
      if (change.litres >= setUp.volumeL.value) checks.state.add(words.checks.whole, `${changes.cell(row, "share")}=1`);
    });
    const gates = putChecks({ draft, log, setUp, cells, setUpCells, checks, days: this.days }, workspace, slopes.table.next, foodsRange, single);
    // The workings beside the answer are for the screen.
    draft.printedRows = 5 + periods.length;
    const rows = budget(log, setUp, this.choice);
    rows.forEach((row, k) => this.putPeriod(k, row, terms, gates, (part) => {
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
        case "draws": {
          const of = slopes.rowsOf(k);
          if (!of) return "0";
          const variance = `${table.cell(k, "first")}^2`;
          return `IF(OR(SUM(${slopes.table.column("below", ...of)})>0,MAX(${slopes.table.column("far", ...of)})>0.5*${variance}),1,0)`;
        }
        default: {
          const of = slopes.rowsOf(k);
          return `SQRT(${table.cell(k, "own")}${of ? `+SUM(${slopes.table.column("variance", ...of)})` : ""})`;
        }
      }
    }));
    const top = withHeadings ? 4 : 5;
    const textsGone = `OR(ISERROR(${gates.holds}),SUMPRODUCT(--ISERROR(${table.column("same")}))>0)`;
    return { text: draft.range(top, 1, 4 + periods.length, 11), rows: periods.length + (withHeadings ? 1 : 0), columns: 11, cell: (row, column) => draft.address(top + row, 1 + column), textsGone };
  }

  /** The figures of one period; `formula` writes each part. */
  private putPeriod(k: number, row: BudgetPeriod, terms: Terms, gates: Gates, formula: (part: (typeof FIGURES)[number] | "own" | "first" | "draws") => string): void {
    const { table, answer } = this;
    const at = (column: PeriodColumn): string => table.cell(k, column);
    table.put(k, "sentence", String(budgetRow(row, this.log.nutrient)[10] ?? ""));
    for (const part of FIGURES) table.formula(k, part, row.parts[part] === null ? '""' : formula(part));
    const period = terms.periods[k];
    if (row.unexplained === null || row.u === null || !period) {
      table.formula(k, "unexplained", '""');
      table.formula(k, "same", gates.same);
      return putAnswer(answer, k, at, gates, { u: '""', sheet: this.draft.name });
    }
    table.formula(k, "unexplained", `${at("feedIn")}+${at("otherIn")}-${at("harvestOut")}-${at("changeOut")}-${at("otherOut")}-${at("storeChange")}`);
    const first = firstOrder(period, terms.quantities);
    table.formula(k, "own", formula("own"));
    table.formula(k, "first", formula("first"));
    table.formula(k, "draws", formula("draws"));
    const largest = Math.max(first.u, ...FIGURES.map((part) => Math.abs(row.parts[part] ?? 0)));
    table.formula(k, "same", sameFigures([[at("unexplained"), row.unexplained], [at("first"), first.u], [at("harvestOut"), row.parts.harvestOut ?? 0], [at("feedIn"), row.parts.feedIn ?? 0]], largest, gates.same));
    // An uncertainty of first order follows the entries; one from draws is a value that holds while they stay.
    putAnswer(answer, k, at, gates, { u: row.u === first.u ? `IF(${at("draws")}=0,${at("first")},NA())` : `IF(ISERROR(${at("same")}),IF(${at("draws")}=0,${at("first")},NA()),${figureText(row.u)})`, sheet: this.draft.name });
  }
}
