import { maySpill } from "../../src/files/may-spill";

test.each([
  "ALGAL.BUDGET_N(Log!$A$3:$J$2000,Setup!$A$5:$B$22)",
  'IF($B$3="",ALGAL.BUDGET_P(Log[#All],B4),"")',
  "algal.reading_low({\"<0.2\";\"5\"},\"0 5 10\")",
  "ALGAL.READING_SERIES(Algal_log,Algal_set_up)",
  "FILTER(A1:A9,B1:B9>0)",
])("%s may give several values later", (formula) => expect(maySpill(formula)).toBe(true));

test.each(["ALGAL.LIGHT_DAILY(200,12)", 'ALGAL.FEEDLOAD_N(B2,"Nori: raw {dry}")', "ALGAL.HARVEST_DRY(Log!$B$2,'My log'!C2,TRUE)", "SUM(A1:A9)", "Feed*2", '"ALGAL.X(A1:A2)"'])("%s gives one value for ever", (formula) =>
  expect(maySpill(formula)).toBe(false),
);
