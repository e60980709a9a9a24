import { columnOf } from "../../../functions/log-headings";
import { Problem } from "../../../science/problem";
import { join as words } from "../../../words/join";
import { folded, textAt, type Grid } from "./cells";
import { amountProposal } from "./amounts";
import { headingFor } from "./choices";
import { dateOrderOf } from "./date-order";
import type { FoundLog } from "./find-log";
import { headingOf } from "./heading-rows";
import { headingMeaning, isTest, kindOfForm, nearKind, type HeadingMeaning } from "./meaning";
import { asked, leftAlone, meant, type ColumnFacts, type ColumnProposal } from "./proposal";
import { testProposal } from "./readings";
import { withoutTwice } from "./twice";
import { unitsIn, type WrittenUnit } from "./units";
import { areWeekdays, foodWordIn, mostlyTexts, namesFoods, valuesOf, type ColumnValues } from "./values";
import { AMOUNT_WORDS, SCREEN_WORDS, type Kind } from "./vocabulary";

/** What else is known of the sheet. */
export interface Knowledge {
  /** The cells' formulas on the same grid ("=B3-C3"), constants as they are. */
  readonly formulas?: Grid;
  /** Names of the keeper's own foods. */
  readonly foods?: readonly string[];
}

/** Headings to choose from where a column says nothing of itself. */
const ANYTHING = ["Feed (g)", "Feed (portions)", "NO3 (mg/L)", "NO3-N (mg/L)", "PO4 (mg/L)", "PO4-P (ug/L)", "Harvest (g)", "Water change (L)", "Water change (%)", "Top-up (L)", "Temperature (C)", "pH", "Salinity"] as const;

/** What a unit alone leaves open. */
const choicesOfUnits = (units: readonly WrittenUnit[]): string[] =>
  units.flatMap(({ sort, unit }) => {
    if (sort === "mass") return [headingFor("feed", unit), headingFor("harvest", unit), headingFor("fedBack", unit)];
    if (sort === "volume") return [headingFor("change", unit), headingFor("topUp", unit)];
    if (sort === "celsius" || sort === "fahrenheit") return [headingFor("temperature", unit)];
    return sort === "portions" ? [headingFor("feed", unit)] : [];
  });

/** A meaning for each column of the log from its left to its right. A unit or a form that is nowhere written is asked for, never taken. */
export function proposeColumns(grid: Grid, found: FoundLog, known: Knowledge = {}): ColumnProposal[] {
  const places = Array.from({ length: found.right - found.left + 1 }, (_, place) => found.left + place);
  const read = places.map((column) => readColumn(grid, found, column));
  const firstKinds = read.map(({ said, values }, place) => (places[place] === found.dateColumn ? "date" : kindOf(said, values, read[place]?.heading ?? "")));
  // "Food", then "Amount (g)": the amount is of the food before it.
  const kinds = firstKinds.map((kind, place) => (kind === null && firstKinds[place - 1] === "food" && AMOUNT_WORDS.test(folded(read[place]?.heading ?? "")) ? "feed" : kind));
  const harvests = read.filter(({ said }, place) => kinds[place] === "harvest" && !said.computed);
  const screens = harvests.length > 1 ? harvests.map(({ said }) => said.name.toLowerCase()).filter(Boolean) : [];
  const proposals = read.map((one, place): ColumnProposal => {
    const column = places[place] ?? 0;
    if (column === found.dateColumn) return dateProposal(one.heading, one.values);
    const kind = kinds[place] ?? null;
    const alike = kinds.filter((other, at) => at !== place && other === kind && !read[at]?.said.computed).length;
    return held(proposal(one, kind, { alike, screens, isReckoned: isReckoned(known.formulas, column, found), foods: known.foods ?? [] }));
  });
  return withoutTwice(proposals);
}

type ReadColumn = Omit<ColumnFacts, "kind" | "severalOfKind" | "screens">;

function readColumn(grid: Grid, found: FoundLog, column: number): ReadColumn {
  const { own, group } = headingOf(grid, found, found.left, column);
  const values = valuesOf(grid, column, found.firstDataRow, found.bottom);
  const fromRow = found.unitsRow === null ? [] : unitsIn(textAt(grid, found.unitsRow, column));
  let said = headingMeaning(own);
  const above = group === "" ? null : headingMeaning(group);
  // "left" under "Harvest (g)" is a harvest; pH under the same group is not.
  const saidByGroup = above !== null && above.kind !== null && said.kind === null && said.ignored === null && !said.ratio;
  if (saidByGroup) said = headingMeaning(`${group} ${own}`);
  if (said.kind === null) {
    const form = fromRow.map((one) => one.form).find((one) => one !== null);
    if (form) said = { ...said, kind: kindOfForm(form) };
  }
  // The unit of a group belongs to its own kind, or to every test below a group of tests.
  const isOfTests = above !== null && isTest(said.kind) && (above.kind === null || (isTest(above.kind) && headingMeaning(withoutUnits(group)).kind === null));
  const fromGroup = above && (saidByGroup || isOfTests || (above.kind !== null && above.kind === said.kind)) ? above.units : [];
  return { heading: [group, own].filter(Boolean).join(" / "), said, values, own: headingMeaning(own).units, fromRow, fromGroup, group };
}

const withoutUnits = (text: string): string => text.replace(/[([][^)\]]*[)\]]/g, "");

/** The words' kind, held against the values: an amount is no column of words, and foods are no amount. */
function kindOf(said: HeadingMeaning, values: ColumnValues, written: string): Kind | null {
  const { kind } = said;
  if (said.foodName) return "food";
  if ((kind === "feed" || kind === "food") && mostlyTexts(values)) return "food";
  if (kind === "food") return "feed";
  if (kind === "light" && said.units.some((one) => one.sort === "hours")) return "lightHours";
  if (kind === "light" && said.units.some((one) => one.sort === "share")) return "lightLevel";
  if (kind === null && foodWordIn(said.name) !== null && said.units.some((one) => one.sort === "mass" || one.sort === "portions")) return "feed";
  // Nothing else of a log is in degrees.
  if (kind === null && said.units.some((one) => one.sort === "celsius" || one.sort === "fahrenheit") && /°|[([]\s*[CF]\s*[)\]]/.test(written)) return "temperature";
  return kind;
}

/** Whether formulas fill most of a column. */
function isReckoned(formulas: Grid | undefined, column: number, { firstDataRow, bottom }: FoundLog): boolean {
  if (!formulas) return false;
  const cells = Array.from({ length: bottom - firstDataRow + 1 }, (_, place) => formulas[firstDataRow + place]?.[column]).filter((cell) => cell !== "" && cell != null);
  return cells.length > 0 && cells.filter((cell) => typeof cell === "string" && cell.startsWith("=")).length > 0.5 * cells.length;
}

function dateProposal(heading: string, values: ColumnValues): ColumnProposal {
  const { order, orders, why } = dateOrderOf(values.filled);
  const base = { ...meant(heading, "date", "Date", "sure", why), dateOrder: order };
  if (orders.length === 0) return base;
  return { ...base, meaning: null, sureness: "ask", choices: ["Date"], dateOrder: null, dateOrders: orders };
}

interface Beside {
  readonly screens: readonly string[];
  readonly alike: number;
  readonly isReckoned: boolean;
  readonly foods: readonly string[];
}

function proposal(one: ReadColumn, kind: Kind | null, { alike, screens, isReckoned, foods }: Beside): ColumnProposal {
  const { heading, said, values } = one;
  if (values.filled.length === 0 && kind === null) return leftAlone(heading, "sure", words.why.blank);
  if (said.ratio) return leftAlone(heading, "likely", words.why.ratio);
  if (kind === "food") return mostlyTexts(values) || values.filled.length === 0 ? meant(heading, "food", "Food", said.foodName || namesFoods(values, foods) ? "sure" : "likely", words.why.headingAlone(words.kind.food)) : leftAlone(heading, "likely", words.why.unknown);
  if (kind === "date") return areWeekdays(values) || mostlyTexts(values) ? leftAlone(heading, "sure", words.why.weekday) : leftAlone(heading, "likely", words.why.otherDates);
  const isAmount = kind !== null && kind !== "leftAlone";
  if (isAmount && !(said.ignored && said.weak)) {
    const facts: ColumnFacts = { ...one, kind, severalOfKind: alike > 0, screens };
    if (values.filled.length > 0 && (mostlyTexts(values) || (values.figures.length === 0 && !isTest(kind)))) return leftAlone(heading, "likely", words.why.text);
    if (said.computed && alike > 0) return leftAlone(heading, "likely", words.why.computed);
    const proposed = isTest(kind) ? testProposal(facts) : amountProposal(facts);
    if (proposed.meaning === null || proposed.sureness === "ask") return proposed;
    if (said.qualified !== null) return asked(heading, kind, words.why.qualified(said.qualified, words.kind[kind]), [proposed.meaning]);
    if (said.element !== null && !isTest(kind)) return asked(heading, kind, words.why.elementOf(said.element, words.kind[kind]), [proposed.meaning]);
    if (said.computed) return asked(heading, kind, words.why.computedOnly(words.kind[kind]), [proposed.meaning]);
    if (isReckoned) return asked(heading, kind, words.why.formulaMeaning(words.kind[kind]), [proposed.meaning]);
    return proposed;
  }
  if (said.ignored !== null) return leftAlone(heading, "sure", words.why.knownIgnored(said.ignored));
  if (said.density) return leftAlone(heading, "likely", words.why.density);
  if (said.computed) return leftAlone(heading, "likely", words.why.computed);
  if (namesFoods(values, foods)) return meant(heading, "food", "Food", "likely", words.why.foods(values.texts[0] ?? ""));
  if (mostlyTexts(values)) return leftAlone(heading, "sure", words.why.text);
  if (isReckoned) return leftAlone(heading, "likely", words.why.formulas);
  const near = nearKind(heading);
  if (near !== null) return perhaps({ ...one, said: { ...said, name: "" }, kind: near, severalOfKind: alike > 0, screens });
  if (values.figures.length > 0 && heading !== "" && (said.name.length <= 2 || SCREEN_WORDS.test(folded(heading)))) {
    const units = [...one.own, ...one.fromRow];
    const choices = units.some(({ sort }) => sort === "concentration") ? [] : choicesOfUnits(units);
    if (choices.length > 0) return asked(heading, "leftAlone", words.why.unitOnly(units[0]?.unit ?? ""), choices);
  }
  if (heading === "" && values.figures.length > 0) return asked(heading, "leftAlone", words.why.noHeading, ANYTHING);
  return leftAlone(heading, "likely", words.why.unknown);
}

/** A mistyped word is a question at best. */
function perhaps(facts: ColumnFacts): ColumnProposal {
  const proposed = isTest(facts.kind) ? testProposal(facts) : amountProposal(facts);
  if (proposed.sureness === "ask") return proposed;
  if (proposed.meaning === null) return leftAlone(facts.heading, "likely", words.why.unknown);
  return asked(facts.heading, facts.kind, words.why.perhaps(words.kind[facts.kind]), [proposed.meaning]);
}

/** No proposal leaves this room that the strict reader would refuse or pass over. */
function held(one: ColumnProposal): ColumnProposal {
  const isReadable = (heading: string): boolean => {
    try {
      return columnOf(heading).kind !== "ignored";
    } catch (error) {
      if (error instanceof Problem) return false;
      throw error;
    }
  };
  const choices = [...new Set(one.choices)].filter(isReadable);
  if (one.meaning === null || isReadable(one.meaning)) return { ...one, choices };
  return asked(one.heading, one.kind, words.why.perhaps(words.kind[one.kind]), choices);
}
