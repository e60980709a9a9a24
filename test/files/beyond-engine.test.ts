import { beyondEngine } from "../../src/files/beyond-engine";

const plain = { isArray: false, rowsHidden: false };

test.each([
  ["SUM(A:A A2:A3)", "intersection"],
  ["SUM(Jan Feed)", "intersection"],
  ["SUM(A1:A3 'My log'!A2:A9)", "intersection"],
  ["SUM((A1,A3))", "union"],
  ["RANK(A1,(A1:A3,C1:C3))", "union"],
  ["SUM(A1:A6*2)", "place"],
  ["A1:A6*2", "place"],
  ["2*A1:A6", "place"],
  ["SUM(Log!A1:A6^2)", "place"],
  ["SUM(Feed[Grams]*2)", "place"],
  ["MAX(IF(A1:A5>2,B1:B5))", "place"],
  ["SUM(ABS(A1:A6))", "place"],
  ["SUM(-$A$1:$A$6)", "place"],
  ["SUM(A:A*2)", "place"],
])("%s is beyond it: %s", (formula, why) => {
  expect(beyondEngine(formula, plain)).toBe(why);
});

test.each([
  ["SUM(A1:A6)*2"],
  ["SUM( A1:A6 , B2 )"],
  ["SUM (A1:A6)"],
  ["A1 + B1"],
  ["IF(A1 > 2, \"a b\", B1)"],
  ["IF(AND(A1>2,B1<3),C1,D1)"],
  ["(A1+B1)*(C1-D1)"],
  ["SUMPRODUCT((A1:A6=B1)*C1:C6)"],
  ["SUMPRODUCT(--(LEN(A1:A6)>0))"],
  ["SUM(IF(A1>2,B1:B5,C1:C5))"],
  ["INDEX(A1:B6,MATCH(C1,A1:A6,0),2)"],
  ["VLOOKUP(A1,Foods!A:C,3,FALSE)"],
  ["SUM({1,2,3})"],
  ["Feed[@Grams]*2"],
  ["Feed[[#This Row],[Grams]]*2"],
  ["SUM(A1:A1*2)"],
  ["COUNTIF(A1:A6,\">2\")+1"],
  ["SUBTOTAL(9,A2:A6)"],
  ["\"(a,b) c d\"&A1"],
])("%s is not", (formula) => {
  expect(beyondEngine(formula, plain)).toBeUndefined();
});

test("an array formula calculates with ranges, and rows that are hidden matter to what counts the shown ones", () => {
  expect(beyondEngine("SUM(A1:A6*2)", { ...plain, isArray: true })).toBeUndefined();
  expect(beyondEngine("SUM((A1,A3))", { ...plain, isArray: true })).toBe("union");
  for (const formula of ["SUBTOTAL(9,A2:A6)", "AGGREGATE(9,5,A2:A6)"]) expect(beyondEngine(formula, { ...plain, rowsHidden: true })).toBe("hidden");
  expect(beyondEngine("SUM(A2:A6)", { ...plain, rowsHidden: true })).toBeUndefined();
});
