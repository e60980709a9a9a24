import type { Log, SetUp } from "../../science/budget/log";
import type { Period, PeriodChoice } from "../../science/budget/period";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import type { PeriodTable } from "./answer";
import type { Checks } from "./checks";
import type { HarvestTable } from "./entries";
import type { LogCells } from "./log-cells";
import { Table } from "./table";
import type { ReadingTable } from "./water";

/** Two hundred years of days: a log that is longer is refused. */
const MOST_DAYS = 73_050;
/** The calendar of a spreadsheet program is that of other people from this day on, 1 March 1900. */
const FIRST_MARCH = 61;

export interface TestDays {
  readonly series: Log["series"][number];
  readonly readings: ReadingTable;
}

/** The days of a log and of its periods as cells. The days may move, but not past each other. */
export class PeriodDays {
  private readonly days: Table<"day" | "step">;

  constructor(draft: Draft, left: number, private readonly log: Log, private readonly setUp: SetUp, cells: LogCells, private readonly periods: readonly Period[], private readonly choice: PeriodChoice, private readonly ends: PeriodTable) {
    const rows = [...log.rows].sort((a, b) => a.day - b.day);
    this.days = new Table(draft, left, words.days, words.dayHeadings, rows.length);
    rows.forEach(({ row, day }, place) => {
      this.days.formula(place, "day", cells.day(row));
      if (place > 0) this.days.put(place, "step", day > (rows[place - 1]?.day ?? day) ? 1 : 0);
    });
  }

  get next(): number {
    return this.days.next;
  }

  get first(): string {
    return this.days.cell(0, "day");
  }

  get last(): string {
    return this.days.cell(this.days.rows - 1, "day");
  }

  /** Writes the ends of the periods. */
  put(harvests: HarvestTable, tests: readonly TestDays[]): void {
    const { ends, periods, log, setUp, choice, first } = this;
    periods.forEach(({ to }, k) => {
      ends.formula(k, "from", k === 0 ? first : ends.cell(k - 1, "to"));
      const end = (): string => {
        if (k === periods.length - 1) return this.last;
        if (choice === "week") return `${first}+${7 * (k + 1)}`;
        if (choice === "month") return monthStart(first, k + 1);
        if (choice === "harvest") return harvests.cell(log.harvests.findIndex((harvest) => harvest.day === to && harvest.unit === setUp.periodUnit), "day");
        const test = tests.find(({ series }) => series.entries.some(({ day }) => day === to));
        return test?.readings.cell(test.series.entries.findIndex(({ day }) => day === to), "day") ?? "NA()";
      };
      ends.formula(k, "to", end());
    });
  }

  /** The number of the period that holds a day. */
  periodOf(day: string): string {
    const { ends, periods } = this;
    const inner = periods.length - 1;
    if (inner === 0) return "1";
    const column = ends.column("to", 0, inner - 1);
    const opens = periods[0]?.withTo === false;
    // What lies at the very end of a period belongs to it, unless periods begin with their first day.
    return `1+IF(${day}<${opens ? "" : "="}${ends.cell(0, "to")},0,MATCH(${day},${column},1)${opens ? "" : `-(LOOKUP(${day},${column})=${day})`})`;
  }

  check(checks: Checks): void {
    const { days, periods, choice, first, last } = this;
    if (days.rows > 1) checks.add(words.checks.days, `SUMPRODUCT(--(SIGN(${days.column("day", 1)}-${days.column("day", 0, days.rows - 2)})<>${days.column("step", 1)}))=0`);
    const count = periods.length;
    checks.add(words.checks.span, `${last}>${first}`, `${last}-${first}<=${MOST_DAYS}`);
    if (choice === "week") checks.add(words.checks.span, ...(count > 1 ? [`${first}+${7 * (count - 1)}<${last}`] : []), `${first}+${7 * count}>=${last}`);
    if (choice === "month") checks.add(words.checks.span, `${first}>=${FIRST_MARCH}`, ...(count > 1 ? [`${monthStart(first, count - 1)}<${last}`] : []), `${monthStart(first, count)}>=${last}`);
  }

  /** The day on which a screen began stays between the days that it lay between. */
  checkStart(checks: Checks, screen: string, started: string, day: number): void {
    const column = this.days.column("day");
    const count = (test: (other: number) => boolean): number => this.log.rows.filter((one) => test(one.day)).length;
    checks.add(words.checks.started(screen), `SUMPRODUCT(--(${column}<${started}))=${count((other) => other < day)}`, `SUMPRODUCT(--(${column}=${started}))=${count((other) => other === day)}`);
  }
}

const monthStart = (first: string, months: number): string => `DATE(YEAR(${first}),MONTH(${first})+${months},1)`;
