import { numberFromText } from "../../science/number-text";
import { Problem } from "../../science/problem";
import { parseKit } from "../../science/reading";
import type { DateOrder } from "../../functions/date-text";
import { joinPane as words } from "../../words/join-pane";
import type { Look } from "../../workbook/join/look";
import { OWN_FOOD_ROWS } from "../../workbook/weekly/weekly-sheets";
import type { SecondLook } from "../../workbook/join/read-again";
import { foodsOfLog } from "../../workbook/join/recognise/foods-of-log";
import type { ColumnProposal } from "../../workbook/join/recognise/proposal";

export const SET_UP_FIELDS = ["volume", "area", "no3", "po4"] as const;
export type SetUpField = (typeof SET_UP_FIELDS)[number];

/** What the keeper said of a log that was found. */
export interface Answers {
  /** One of our headings for each column, null to leave it alone, undefined: not answered yet. */
  readonly meanings: readonly (string | null | undefined)[];
  /** Undefined: asked and not answered yet. */
  readonly dateOrder: DateOrder | null | undefined;
  readonly setUp: Readonly<Record<SetUpField, string>>;
  /** A food of the built-in table by the keeper's own name, "" for the one that nothing names; null to fill it in later. */
  readonly foods: Readonly<Record<string, string | null>>;
}

const dateColumn = ({ columns }: Look): ColumnProposal | undefined => columns.find(({ kind }) => kind === "date");
/** Whether nothing of the sheet settles in which order its text dates are written. */
export const asksDateOrder = (look: Look): boolean => (dateColumn(look)?.dateOrders.length ?? 0) > 1 && dateColumn(look)?.dateOrder === null;
/** The columns whose meaning has to be asked. */
export const asksMeaning = ({ kind, sureness }: ColumnProposal): boolean => sureness === "ask" && kind !== "date";

/** Before anything is asked; what was answered at an earlier look is not asked again. */
export function firstAnswers(look: Look, before: Pick<SecondLook, "known" | "dateOrder"> | null): Answers {
  return {
    meanings: look.columns.map((column, place) => {
      const known = before?.known[place];
      if (known !== undefined) return known;
      return asksMeaning(column) ? undefined : column.meaning;
    }),
    dateOrder: asksDateOrder(look) ? (before?.dateOrder ?? undefined) : (dateColumn(look)?.dateOrder ?? null),
    setUp: { volume: "", area: "", no3: "", po4: "" },
    foods: {},
  };
}

export const openQuestions = ({ meanings, dateOrder }: Answers): number => meanings.filter((meaning) => meaning === undefined).length + (dateOrder === undefined ? 1 : 0);

/** Key of the food that the log leaves without a name. */
export const THE_FOOD = "";

/** Names of foods to ask for, THE_FOOD for the one without a name; what has no room on the sheet of foods is only told. */
export function foodsToAsk({ grid, found }: Look, { meanings }: Answers): { readonly asked: readonly string[]; readonly told: readonly string[] } {
  const { needsOne, unknown } = foodsOfLog(grid, found, meanings);
  return { asked: [...(needsOne ? [THE_FOOD] : []), ...unknown.slice(0, OWN_FOOD_ROWS)], told: unknown.slice(OWN_FOOD_ROWS) };
}

/** The foods as they are written: the one without a name to the set-up, the others to the sheet of foods. */
export function answeredFoods(asked: readonly string[], { foods }: Answers): { readonly setUp: Readonly<Record<string, string>>; readonly own: Readonly<Record<string, string>> } {
  const chosen = asked.flatMap((name) => (foods[name] ? [[name, foods[name]] as const] : []));
  const one = foods[THE_FOOD];
  return { setUp: one && asked.includes(THE_FOOD) ? { [words.foodRow]: one } : {}, own: Object.fromEntries(chosen.filter(([name]) => name !== THE_FOOD)) };
}

/** The columns as they stand with the answers, for the rows "as understood". */
export const answeredColumns = ({ columns }: Look, { meanings, dateOrder }: Answers): ColumnProposal[] =>
  columns.map((column, place) => ({ ...column, meaning: meanings[place] ?? null, dateOrder: column.kind === "date" ? (dateOrder ?? null) : null }));

/** Which boxes of the set-up the log asks for. */
export const fieldsFor = ({ meanings }: Answers): SetUpField[] => {
  const has = (start: RegExp): boolean => meanings.some((meaning) => meaning !== null && meaning !== undefined && start.test(meaning));
  return SET_UP_FIELDS.filter((field) => (field === "no3" ? has(/^NO3/) : field === "po4" ? has(/^PO4/) : field === "area" ? has(/^Harvest/) : true));
};

/** The set-up as it is written to the sheet, and a sentence at each box that cannot be. */
export interface ReadSetUp {
  readonly rows: Readonly<Record<string, string | number>>;
  readonly wrong: Readonly<Partial<Record<SetUpField, string>>>;
  readonly needsVolume: boolean;
}

export function readSetUp(answers: Answers): ReadSetUp {
  const rows: Record<string, string | number> = {};
  const wrong: Partial<Record<SetUpField, string>> = {};
  for (const field of fieldsFor(answers)) {
    const written = answers.setUp[field].trim();
    if (written === "") continue;
    const { row, label } = words.setUp[field];
    try {
      rows[row] = field === "no3" || field === "po4" ? kitText(written) : amount(label, written);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      wrong[field] = error.message;
    }
  }
  return { rows, wrong, needsVolume: rows[words.setUp.volume.row] === undefined };
}

/** @throws Problem for what is not a number above zero */
function amount(label: string, written: string): number {
  const value = numberFromText(written);
  if (value === null || !(value > 0)) throw new Problem("value", words.badNumber(label, written));
  return value;
}

/** The steps as they were written, once they are known to be readable; a single step stands as a number. */
function kitText(written: string): string | number {
  parseKit([written]);
  return /^[\d.]+$/.test(written) ? Number(written) : written;
}
