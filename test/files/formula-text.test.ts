import fc from "fast-check";
import { customFunctionsIn, fromStored, toStored } from "../../src/files/formula-text";
import { isReadableFormula } from "../../src/files/formula-grammar";
import { formulaTokens, isClosed } from "../../src/files/formula-tokens";

describe("a formula is shown without the prefixes of the file and stored with them", () => {
  test.each([
    ["_xldudf_ALGAL_FEEDLOAD_N(A1,B1)", "ALGAL.FEEDLOAD_N(A1,B1)"],
    ["SUM(_xldudf_ALGAL_NP_RATIO(Log!$A$2:$A$9),1)*2", "SUM(ALGAL.NP_RATIO(Log!$A$2:$A$9),1)*2"],
    ["_xlfn.XLOOKUP(A1,B:B,C:C)", "XLOOKUP(A1,B:B,C:C)"],
    ["_xlfn._xlws.FILTER(A1:A9,A1:A9>0)", "FILTER(A1:A9,A1:A9>0)"],
    ["_xlfn._xlws.SORT(_xlfn.UNIQUE(A1:A9))", "SORT(UNIQUE(A1:A9))"],
    ["_xlfn.LET(_xlpm.x,A1*2,_xlpm.y,_xlpm.x+1,_xlpm.y*_xlpm.x)", "LET(x,A1*2,y,x+1,y*x)"],
    ["_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v^2))", "MAP(A1:A3,LAMBDA(v,v^2))"],
    ["_xlfn.STDEV.S(A1:A9)/_xlfn.NORM.S.DIST(1,TRUE)", "STDEV.S(A1:A9)/NORM.S.DIST(1,TRUE)"],
    ["IF(A1=\"\",\"\",_xldudf_ALGAL_FOOD_N_CONTENT(A1))", "IF(A1=\"\",\"\",ALGAL.FOOD_N_CONTENT(A1))"],
    ["1.5E-3*A1^2%", "1.5E-3*A1^2%"],
    ["Foods[[#This Row],[N share]]", "Foods[[#This Row],[N share]]"],
    ["[1]Log!A1+'[2]My tank'!B2", "[1]Log!A1+'[2]My tank'!B2"],
    ["{1,2;\"a\",#N/A}", "{1,2;\"a\",#N/A}"],
  ])("%s", (stored, shown) => {
    expect(fromStored(stored)).toBe(shown);
    expect(toStored(shown)).toBe(stored);
  });

  test("what stands in a text, in a sheet's name or in a table's heading is left alone, both ways", () => {
    const stored = `"_xlfn.XLOOKUP( _xldudf_ALGAL_X("&'_xlfn.ALGAL.X(1)'!A1&Log[_xlfn.ALGAL.X]&_xlfn.CONCAT("it's ""ALGAL.X()""")`;
    const shown = `"_xlfn.XLOOKUP( _xldudf_ALGAL_X("&'_xlfn.ALGAL.X(1)'!A1&Log[_xlfn.ALGAL.X]&CONCAT("it's ""ALGAL.X()""")`;
    expect(fromStored(stored)).toBe(shown);
    expect(toStored(shown)).toBe(stored);
    expect(toStored('"ALGAL.X(1)"&\'ALGAL.X(2)\'!A1')).toBe('"ALGAL.X(1)"&\'ALGAL.X(2)\'!A1');
  });

  test.each(["ALGAL.NP_RATIO(1)", "_xll.ALGAL.NP_RATIO(1)", "algal.np_ratio(1)", "_xldudf_algal_np_ratio(1)", "_xldudf_ALGAL_NP_RATIO(1)"])("%s is read as ALGAL.NP_RATIO", (stored) => {
    expect(fromStored(stored)).toBe("ALGAL.NP_RATIO(1)");
    expect(toStored(fromStored(stored))).toBe("_xldudf_ALGAL_NP_RATIO(1)");
  });

  test("a custom function of somebody else keeps its name", () => {
    expect(fromStored("_xldudf_OTHER_ADD(1,2)")).toBe("_xldudf_OTHER_ADD(1,2)");
    expect(toStored("OTHER.ADD(1,2)")).toBe("OTHER.ADD(1,2)");
  });

  test("a name that LET declares is stored as its own only inside that call, and never where it names a sheet or a function's text", () => {
    expect(toStored("LET(x,1,x+x!A1)+x")).toBe("_xlfn.LET(_xlpm.x,1,_xlpm.x+x!A1)+x");
    expect(toStored('LET(a,LET(b,2,b*a0),a&"a")')).toBe('_xlfn.LET(_xlpm.a,_xlfn.LET(_xlpm.b,2,_xlpm.b*a0),_xlpm.a&"a")');
    expect(toStored("LAMBDA(x,y,x+y)(1,2)")).toBe("_xlfn.LAMBDA(_xlpm.x,_xlpm.y,_xlpm.x+_xlpm.y)(1,2)");
  });

  test("storing twice changes nothing more, and neither does showing twice", () => {
    for (const shown of ["LET(x,ALGAL.NP_RATIO(A1),x*2)", "SORT(FILTER(A:A,A:A>0))"]) {
      expect(toStored(toStored(shown))).toBe(toStored(shown));
      expect(fromStored(fromStored(toStored(shown)))).toBe(shown);
    }
  });

  test("the functions of a formula are found where they are called, not where they are spelt", () => {
    expect(customFunctionsIn('ALGAL.NP_RATIO(1)+algal.net_volume(2)&"ALGAL.X(1)"')).toEqual(["NP_RATIO", "NET_VOLUME"]);
  });
});

describe("a formula is cut into tokens", () => {
  test("that are the formula again when put together, whatever the text", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: "grapheme" }), fc.stringMatching(/^[A-Z$0-9"'()[\],.:!#{}; _+]{0,40}$/)), (text) => {
        expect(formulaTokens(text).map((token) => token.text).join("")).toBe(text);
        expect(formulaTokens(text).every((token) => token.text !== "")).toBe(true);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });

  test.each([
    ["$A$1:B2", ["word", "sign", "word"]],
    ["'It''s'!A1", ["sheet", "sign", "word"]],
    ["T[[#All],['[x']]]+1", ["word", "bracket", "sign", "number"]],
    ["#DIV/0!+#N/A", ["error", "sign", "error"]],
    ["A1#", ["word", "sign"]],
    ["größe_1.x*2.5e+3", ["word", "sign", "number"]],
    ['"a""b"&" "', ["text", "sign", "text"]],
  ])("%s", (formula, kinds) => {
    expect(formulaTokens(formula).map((token) => token.kind)).toEqual(kinds);
  });

  test.each([
    ["SUM(1,2)", true],
    ["SUM(1,2", false],
    ["SUM(1,2))", false],
    ["({1,2)}", false],
    ['"a"")"', true],
    ['"a', false],
    ["'My tank!A1", false],
    ["T[a", false],
    ['")("', true],
  ])("%s has all its other halves: %s", (formula, closed) => {
    expect(isClosed(formula)).toBe(closed);
  });
});

describe("references that a file holds in another form", () => {
  test.each([
    ["E10#", "_xlfn.ANCHORARRAY(E10)"],
    ["SUM('My tank'!E10#)", "SUM(_xlfn.ANCHORARRAY('My tank'!E10))"],
    ["[@Feed]*2", "Log[[#This Row],[Feed]]*2"],
    ["[@[Feed (g)]]+Log[@Feed]", "Log[[#This Row],[Feed (g)]]+Log[[#This Row],[Feed]]"],
    ["SUM([Feed])+[1]Other!A1", "SUM(Log[Feed])+[1]Other!A1"],
    ["Log[@[a]:[b]]", "Log[[#This Row],[a]:[b]]"],
    ["@A1:A9+@INDEX(A1:A9,2)", "_xlfn.SINGLE(A1:A9)+_xlfn.SINGLE(INDEX(A1:A9,2))"],
    ["@A1#", "_xlfn.SINGLE(_xlfn.ANCHORARRAY(A1))"],
    ["SORT([Feed])", "_xlfn._xlws.SORT(Log[Feed])"],
    ["_xlfn.ANCHORARRAY(E10)+Log[[#This Row],[Feed]]", "_xlfn.ANCHORARRAY(E10)+Log[[#This Row],[Feed]]"],
  ])("%s in the table Log is %s", (shown, stored) => {
    expect(toStored(shown, "Log")).toBe(stored);
  });
});

describe("a formula that Excel can read", () => {
  test.each(["IF(A1,,2)", "-2^2%", '{1,2;-3,"a"}', "SUM(A1:B2 B1:C3)", "(A1,B2)", "LAMBDA(x,x+1)(2)", "1:3", "A1<>B1", "'a b'!A1:B2", "Sheet1!#REF!", "[@Feed]*2", "E10#", "SUM(Log[[#All],[a]:[b]])", "Sheet1:Sheet3!A1", "NOW()", "[1]Log!A1", " A1 + 1 ", "-(A1)", "A:A 3:3", "SUM(A:A 1:3)", "A1 %", "#REF!A1", "SUM(#REF!$A$1:$A$3)", "A1 #REF!"])("%s", (formula) => {
    expect(isReadableFormula(formula)).toBe(true);
  });

  test.each(["", "SUM(1", "1+", "A1 2", "A1 1 2", "#N/A A1", "()", "SUM(1;2)", "2A", '"a" "b"', "=A1", "A1)", "{A1}", "[x.xlsx]S!A1", "'[x.xlsx]S'!A1", "A1>>1", "*2", '"a', "SUM(1)2", `${"(".repeat(99)}1${")".repeat(99)}`, `1${"+1".repeat(4100)}`])("is not %.30s", (formula) => {
    expect(isReadableFormula(formula)).toBe(false);
  });

  test("gives each function as many arguments as it takes", () => {
    const takes = (name: string, count: number) => name !== "ROUND" || count === 2;
    expect(["ROUND(1,2)", "ROUND(1,)", "1+ROUND(1)", "ROUND()", "OTHER()"].map((formula) => isReadableFormula(formula, takes))).toEqual([true, true, false, false, true]);
  });
});
