import type { PeriodTerms } from "../../science/budget/terms";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { quoted } from "../given";
import type { CropTable } from "./crop";
import type { ChangeTable, FeedTable, HarvestTable, OtherTable, ScreenCells } from "./entries";
import type { QuantityCells } from "./quantities";
import { Table } from "./table";
import type { TakenOut } from "./taken-out";
import type { WaterCourse } from "./water";


/** What of the account the slopes read. */
export interface SlopeTables {
  readonly feeds: FeedTable;
  readonly harvests: HarvestTable;
  readonly changes: ChangeTable;
  readonly others: OtherTable;
  readonly crop: CropTable;
  readonly courses: readonly WaterCourse[];
  readonly taken: readonly TakenOut[];
  readonly volume: QuantityCells;
  readonly retained: QuantityCells;
  readonly foods: ReadonlyMap<string, QuantityCells>;
}

/** One quantity of the account, with the formula of what a unit of it moves in the unexplained part of period `k`, counted from 0. */
export interface AccountQuantity {
  readonly name: string;
  readonly cells: Pick<QuantityCells, "u"> & Partial<Pick<QuantityCells, "far">>;
  /** Of a reading: what is above 0 while it is below detection and is read in period `k`. */
  readonly below?: (k: number) => string;
  readonly slope: (k: number) => string;
}

const inPeriod = (table: { column(name: "period"): string }, k: number): string => `(${table.column("period")}=${k + 1})`;

/** The quantities in the order in which the budget writes them. */
export function volumeSlope({ courses }: Pick<SlopeTables, "courses">): (k: number) => string {
  return (k) => `-(${courses.map(({ table, ends, starts }) => `${table.cell(ends[k] ?? 0, "value")}-${table.cell(starts[k] ?? 0, "value")}`).join("+") || "0"})/1000`;
}

export function retainedSlope({ feeds, foods }: Pick<SlopeTables, "feeds" | "foods">): (k: number) => string {
  return (k) => `-(${[...foods].map(([name, { mean }]) => `${massOf(feeds, name, k)}*${mean}`).join("+") || "0"})`;
}

const massOf = (feeds: FeedTable, food: string, k: number): string => `SUMIFS(${feeds.column("mass")},${feeds.column("period")},${k + 1},${feeds.column("food")},${quoted(food)})`;

export const foodSlope = ({ feeds, retained }: Pick<SlopeTables, "feeds" | "retained">, food: string) => (k: number): string => `${massOf(feeds, food, k)}*(1-${retained.mean})`;

export const topUpSlope = ({ others }: Pick<SlopeTables, "others">) => (k: number): string =>
  `SUMIFS(${others.column("amount")},${others.column("period")},${k + 1},${others.column("what")},"${words.entries.kinds.topUp}")/1000`;

/** The slopes of one screen's dry fractions, tissue content and estimated crop. */
export function screenSlopes({ harvests, crop }: Pick<SlopeTables, "harvests" | "crop">, screen: ScreenCells, place: number): Record<"drained" | "pressed" | "tissue" | "cropGuess", (k: number) => string> {
  const left = (k: number, how: string): string => `SUMIFS(${harvests.column("left")},${harvests.column("period")},${k + 1},${harvests.column("screen")},${place + 1},${harvests.column("how")},"${how}")`;
  const stands = (k: number, how: string, guess: string): string => `SUMPRODUCT(${inPeriod(crop, k)}*(${crop.column("screen")}=${place + 1})*(${crop.column("how")}="${how}")*${crop.column("sign")}*${crop.column("amount")}*${guess})`;
  const withGuess = `(1+${crop.column("guess")}*(${screen.cropGuess.mean}-1))`;
  const isGuess = `(${crop.column("guess")}=1)`;
  const dry = (how: "drained" | "pressed") => (k: number): string => `-(${left(k, how)}+${stands(k, how, withGuess)})*${screen.tissue.mean}`;
  return {
    drained: dry("drained"),
    pressed: dry("pressed"),
    tissue: (k) => `-((${left(k, "drained")}+${stands(k, "drained", withGuess)})*${screen.drained.mean}+(${left(k, "pressed")}+${stands(k, "pressed", withGuess)})*${screen.pressed.mean}+${stands(k, "dry", withGuess)})`,
    cropGuess: (k) => `-(${stands(k, "drained", isGuess)}*${screen.drained.mean}+${stands(k, "pressed", isGuess)}*${screen.pressed.mean}+${stands(k, "dry", isGuess)})*${screen.tissue.mean}`,
  };
}

/** The slopes of one test: its scale, what new water carries, and each reading. */
export function testSlopes({ changes, volume }: Pick<SlopeTables, "changes" | "volume">, { table, starts, ends }: WaterCourse, taken: TakenOut, incoming: QuantityCells): { readonly scale: (k: number) => string; readonly incoming: (k: number) => string; readonly reading: (place: number) => (k: number) => string; readonly below: (place: number, below: string) => (k: number) => string } {
  const byChanges = (k: number, amount: string): string => `SUMPRODUCT(${inPeriod(changes, k)}*${changes.column("litres")}*${amount})`;
  const ends2 = (k: number): readonly [number, number] => [ends[k] ?? 0, starts[k] ?? 0];
  const ofReadings = (row: number): string => `(${table.cell(row, "value")}-${table.cell(row, "ofNew")}*${incoming.best})`;
  const read = (place: number, k: number): { byChange: string; atEnds: string } => {
    const [end, start] = ends2(k);
    const weights = `((${taken.column("first")}=${place + 1})*${taken.column("ofFirst")}+(${taken.column("next")}=${place + 1})*${taken.column("ofNext")})`;
    return { byChange: byChanges(k, weights), atEnds: `(${weight(end, place)}-${weight(start, place)})` };
  };
  const weight = (row: number, place: number): string => `((${table.cell(row, "first")}=${place + 1})*${table.cell(row, "ofFirst")}+(${table.cell(row, "next")}=${place + 1})*${table.cell(row, "ofNext")})`;
  return {
    scale: (k) => {
      const [end, start] = ends2(k);
      return `-(${byChanges(k, `(${taken.column("value")}-${taken.column("ofNew")}*${incoming.best})`)}+${volume.mean}*(${ofReadings(end)}-${ofReadings(start)}))/1000`;
    },
    incoming: (k) => {
      const [end, start] = ends2(k);
      return `(SUMIF(${changes.column("period")},${k + 1},${changes.column("litres")})-${byChanges(k, taken.column("ofNew"))}-${volume.mean}*(${table.cell(end, "ofNew")}-${table.cell(start, "ofNew")}))/1000`;
    },
    reading: (place) => (k) => {
      const { byChange, atEnds } = read(place, k);
      return `-(${byChange}+${volume.mean}*${atEnds})/1000`;
    },
    // What changes took out and what the store lost may cancel in the slope; the reading was read all the same.
    below: (place, below) => (k) => {
      const { byChange, atEnds } = read(place, k);
      return `IF(OR(ABS(${byChange})>${NO_WEIGHT},ABS(${atEnds})>${NO_WEIGHT}),${below},0)`;
    },
  };
}

export type SlopeTable = Table<"period" | "quantity" | "slope" | "u" | "variance" | "far" | "below">;

/** A weight by rounding alone. */
const NO_WEIGHT = "10^(-9)";

export interface Slopes {
  readonly table: SlopeTable;
  /** The first and the last row of a period; null of one that reads no quantity. */
  readonly rowsOf: (k: number) => readonly [number, number] | null;
}

/** One row for each quantity that a period reads: JCGM 100:2008, 5.1.2. */
export function slopeTable(draft: Draft, left: number, quantities: readonly AccountQuantity[], periods: readonly PeriodTerms[]): Slopes {
  const used = periods.flatMap(({ monomials }, k) => [...new Set(monomials.flatMap(({ factors }) => [...factors]))].sort((a, b) => a - b).map((place) => ({ k, quantity: quantities[place] })));
  const table: SlopeTable = new Table(draft, left, words.slopes, words.slopeHeadings, used.length);
  used.forEach(({ k, quantity }, row) => {
    if (!quantity) return;
    table.put(row, "period", k + 1);
    table.put(row, "quantity", quantity.name);
    table.formula(row, "slope", quantity.slope(k));
    table.formula(row, "u", quantity.cells.u);
    table.formula(row, "variance", `(${table.cell(row, "slope")}*${table.cell(row, "u")})^2`);
    // A reading lies anywhere between its limits.
    table.formula(row, "far", quantity.cells.far ? `${table.cell(row, "variance")}*${quantity.cells.far}` : table.cell(row, "variance"));
    if (quantity.below) table.formula(row, "below", quantity.below(k));
  });
  const first = new Map<number, number>();
  const last = new Map<number, number>();
  used.forEach(({ k }, row) => {
    if (!first.has(k)) first.set(k, row);
    last.set(k, row);
  });
  return {
    table,
    rowsOf: (k) => {
      const [from, to] = [first.get(k), last.get(k)];
      return from === undefined || to === undefined ? null : [from, to];
    },
  };
}
