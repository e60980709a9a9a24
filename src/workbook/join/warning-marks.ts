import { warnings } from "../../words/warnings";

const SERIOUS = { color: "#8A1C0F", fill: "#FCE4DE" };
const OTHER = { color: "#5C4400", fill: "#FFF3D1" };

/** Serious warnings in one colour, the others in another; the word stands in the cell. @param cell the first one, its column fixed: "$L5" */
export function warningMarks(cell: string): { readonly formula: string; readonly color: string; readonly fill: string }[] {
  const [serious, ...others] = Object.values(warnings.severity).map((word) => `LEFT(${cell},${word.length})="${word}"`);
  return [
    { formula: `=${serious ?? ""}`, ...SERIOUS },
    { formula: `=OR(${others.join(",")})`, ...OTHER },
  ];
}

/** Whether a rule is one of those that mark the added column, wherever its rows are by now. */
export const isOurMark = (formula: string): boolean => Object.values(warnings.severity).some((word) => new RegExp(`^=(?:OR\\()?LEFT\\(\\$?[A-Z]+\\$?\\d+,${word.length}\\)="${word}"`).test(formula));
