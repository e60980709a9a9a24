import { ProblemBook } from "./problem-book";

/** The problems of this workbook's ALGAL formulas: written by the functions, shown by the pane that shares their runtime. */
export const problems = new ProblemBook();
