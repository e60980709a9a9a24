import { reconcile as words } from "../words/reconcile";
import type { BothPeriod } from "../science/budget/both";
import { NUTRIENTS } from "../science/budget/effects";
import type { Suspect } from "../science/budget/suspect";
import { PARTS } from "../science/budget/terms";
import { Problem } from "../science/problem";
import { elementMgPerL } from "../science/nutrient-forms";

/** Two rows a period, N and P; a nutrient that cannot be closed has blanks in place of figures. @throws Problem when no test is logged at all */
export function bothRows(periods: readonly BothPeriod[], headings: boolean): (string | number)[][] {
  if (periods.every((one) => one.test === null && one.bad.length === 0 && !one.aboveScale)) throw new Problem("missing", words.needsAReading);
  const rows = periods.flatMap((one) =>
    NUTRIENTS.map((nutrient): (string | number)[] => {
      const parts = one.parts[nutrient];
      const adjusted = PARTS.map((part) => parts?.[part].adjusted ?? "");
      const moved = PARTS.map((part) => (parts && parts[part].u + Math.abs(parts[part].score) > 0 ? parts[part].score : ""));
      return [one.from, one.to, nutrient, ...adjusted, parts ? (one.unexplained[nutrient] ?? "") : "", ...moved, one.test?.p ?? "", sentence(one)];
    }),
  );
  return headings ? [[...words.headings], ...rows] : rows;
}

function sentence(one: BothPeriod): string {
  const reasons = [...one.bad.slice(0, 3).map((bad) => bad.sentence), ...(one.aboveScale ? [words.aboveScale] : [])];
  if (!one.test) return [words.open, ...reasons].join(" ");
  const closed = NUTRIENTS.filter((nutrient) => one.parts[nutrient]);
  const only = closed.length === 1 && closed[0] ? [words.oneNutrientOnly(closed[0])] : [];
  if (one.state === "fits") return [words.fits(one.test.p), ...(one.moved ? [words.moved(one.moved.nutrient, one.moved.part, one.moved.score)] : []), ...only, ...reasons].join(" ");
  const negative = closed.some((nutrient) => PARTS.some((part) => part !== "storeChange" && (one.parts[nutrient]?.[part].adjusted ?? 0) < 0));
  return [words.misfit(one.test.p), ...suspectWords(one), ...(negative ? [words.negative] : []), ...only, ...reasons].join(" ");
}

/** A figure is named only when freeing it takes away at least half of the misfit. */
function suspectWords({ suspect, unexplained }: BothPeriod): string[] {
  const more = (unexplained.N ?? unexplained.P ?? 0) > 0;
  if (!suspect || suspect.gain < suspect.misfit / 2) return [words.noOneFigure, words.orNotLogged(more)];
  const { what, row, name, logged, factor } = suspect;
  if (what === "reading") return [words.suspect.reading(row, name, logged, factor, formStep(suspect))];
  return [words.suspect[what](row, name, logged, logged * factor), words.orNotLogged(more)];
}

/** A reading that is off by about the factor between two ways of counting it. */
function formStep({ factor, nutrient }: Suspect): string | null {
  const near = (wanted: number): boolean => [wanted, 1 / wanted].some((one) => Math.abs(Math.log(factor / one)) < Math.log(1.35));
  if (nutrient === "N") return near(elementMgPerL({ unit: "mg/L", form: "NO3" })) ? words.formOfN : null;
  return near(elementMgPerL({ unit: "mg/L", form: "PO4" })) ? words.formOfP : null;
}
