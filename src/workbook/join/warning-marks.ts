import { warnings } from "../../words/warnings";
import type { Mark } from "../weekly/planned-sheet";

const SERIOUS = { color: "#8A1C0F", fill: "#FCE4DE" };
const OTHER = { color: "#5C4400", fill: "#FFF3D1" };
const { serious, ...others } = warnings.severity;

/**
 * Serious warnings in one colour, the others in another; each begins with its word. Rules that look at a cell's own text ask for
 * no calculation: a formula would stand once for every row of a long log.
 */
export const WARNING_MARKS: readonly Mark[] = [{ beginsWith: serious, ...SERIOUS }, ...Object.values(others).map((word) => ({ beginsWith: word, ...OTHER }))];

/** Whether a rule of text is one of those that mark the added column. */
export const isOurText = ({ operator, text = "" }: Partial<Excel.ConditionalTextComparisonRule>): boolean => operator === "BeginsWith" && Object.values<string>(warnings.severity).includes(text);

/** Whether a formula is one of those that marked the added column in workbooks of earlier versions, wherever its rows are by now. */
export const isOurMark = (formula: string): boolean => Object.values(warnings.severity).some((word) => new RegExp(`^=(?:OR\\()?LEFT\\(\\$?[A-Z]+\\$?\\d+,${word.length}\\)="${word}"`).test(formula));
