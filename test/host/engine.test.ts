import type { Book, BookCell, BookTable } from "../../src/files/book";
import { CellError } from "../../src/functions/cell-error";
import { createEngine, type Engine } from "../../src/host/engine/engine";
import { type Seen, sampleFunctions } from "./sample-functions";

let engine: Engine;
let seen: Seen;

beforeAll(() => {
  const sample = sampleFunctions();
  seen = sample.seen;
  engine = createEngine(sample.set);
});
afterAll(() => engine.dispose());
beforeEach(() => {
  seen.args = [];
});

const formula = (text: string): BookCell => ({ value: null, formula: text });
const value = (content: BookCell["value"]): BookCell => ({ value: content });

function book(...sheets: [string, Record<string, BookCell>][]): Book {
  return { sheets: sheets.map(([name, cells]) => ({ name, cells: new Map(Object.entries(cells)) })), names: [], date1904: false };
}

async function calculate(cells: Record<string, BookCell>) {
  engine.open(book(["Log", cells]));
  const [sheet] = await engine.calculate();
  if (!sheet) throw new Error("no sheet");
  return { ...sheet, at: (address: string) => sheet.values.get(address) };
}

describe("what a function is given", () => {
  test("a range is rows of cells: numbers, texts, booleans, error values, and \"\" for blank", async () => {
    await calculate({ A1: value(1.5), B1: value("0.20"), A2: value(true), B2: value("#N/A"), D1: formula("ALGAL.SEE(A1:B3)") });
    expect(seen.args).toEqual([[[[1.5, "0.20"], [true, new CellError("#N/A", "A cell that this formula reads shows #N/A.")], ["", ""]], null, null, null]]);
  });

  test("one cell and a literal are 1 x 1 where a range is wanted, and a bare value where one value is wanted", async () => {
    await calculate({ A1: value("007"), D1: formula("ALGAL.SEE(A1,A1,5,\"x\")") });
    expect(seen.args).toEqual([[[["007"]], "007", [[5]], "x"]]);
  });

  test("an omitted argument is null, at the end and between commas", async () => {
    await calculate({ D1: formula("ALGAL.SEE(1,,2)") });
    expect(seen.args).toEqual([[[[1]], null, [[2]], null]]);
  });

  test("a blank cell is \"\", not an omitted argument and not 0", async () => {
    await calculate({ D1: formula("ALGAL.SEE(A1,A1)"), D2: formula('ALGAL.SEE(IF(A1="","",A1))') });
    expect(seen.args).toContainEqual([[[""]], "", null, null]);
    expect(seen.args).toContainEqual([[[""]], null, null, null]);
  });

  test.each(['"0.20"', '"12"', '"TRUE"', '"2024-01-01"', '"10%"', '"#N/A"', '"{1,2}"'])("the text literal %s stays a text", async (literal) => {
    await calculate({ D1: formula(`ALGAL.SEE(${literal})`) });
    expect(seen.args).toEqual([[[[literal.slice(1, -1)]], null, null, null]]);
  });

  test("an error literal and a failing inner formula arrive as error values", async () => {
    await calculate({ D1: formula("ALGAL.SEE(#N/A,1/0)") });
    const [first] = seen.args;
    expect((first?.[0] as CellError[][])[0]?.[0]?.code).toBe("#N/A");
    expect((first?.[1] as CellError).code).toBe("#DIV/0!");
  });

  test("a date is its serial number, and a spilled answer of another function is rows", async () => {
    await calculate({ A1: { value: 45000, style: { numberFormat: "yyyy-mm-dd" } }, D1: formula("ALGAL.SEE(A1)"), F1: formula("ALGAL.SEE(ALGAL.TABLE(2,2))") });
    expect(seen.args.map((args) => args[0])).toEqual(expect.arrayContaining([[[45000]], [[101, 102], [201, 202]]]));
  });

  test("cells of other sheets and names are read, and cells far below the data are blank", async () => {
    const opened = book(["Log", { A1: formula("ALGAL.SEE('My tank'!B2,level,B900)") }], ["My tank", { B2: value(7), C3: value(8) }]);
    opened.names.push({ name: "level", ref: "'My tank'!$C$3" });
    engine.open(opened);
    await engine.calculate();
    expect(seen.args).toEqual([[[[7]], 8, [[""]], null]]);
  });
});

describe("what a cell shows", () => {
  test.each([
    ["numeric text", "0.20"],
    ["leading zero", "007"],
    ["true text", "TRUE"],
    ["date text", "2024-01-01"],
    ["formula text", "=1+1"],
    ["array text", "{1,2}"],
    ["yes", true],
    ["serial", 45000],
  ])("%s comes out as it was returned", async (kind, expected) => {
    expect((await calculate({ A1: formula(`ALGAL.GIVE("${kind}")`) })).at("A1")).toBe(expected);
  });

  test.each(["blank", "nothing"])("%s shows as an empty text", async (kind) => {
    const { at } = await calculate({ A1: formula(`ALGAL.GIVE("${kind}")`), B1: formula("LEN(A1)"), C1: formula('A1=""') });
    expect([at("A1"), at("B1"), at("C1")]).toEqual(["", 0, true]);
  });

  test("a range spills over the cells that it needs, and other formulas read the spilled cells", async () => {
    const { at, spills } = await calculate({ B2: formula("ALGAL.TABLE(3,2)"), F1: formula("SUM(B2:C4)"), F2: formula("ALGAL.TIMES_TEN(C4)") });
    expect([at("B2"), at("C2"), at("B4"), at("C4")]).toEqual([101, 102, 301, 302]);
    expect(spills).toEqual(new Map([["B2", "B2:C4"]]));
    expect([at("F1"), at("F2")]).toEqual([1209, 3020]);
  });

  test("values that a file stored for a spilled answer do not block it", async () => {
    const stored: Record<string, BookCell> = { B2: { value: 1, formula: "ALGAL.TABLE(2,2)", spill: "B2:C3" }, C2: value(2), B3: value(3), C3: value(4) };
    expect((await calculate(stored)).at("C3")).toBe(202);
  });

  test("a blocked spill shows #SPILL!, keeps the blocking cell, and is listed", async () => {
    const { at, spills } = await calculate({ B2: formula("ALGAL.TABLE(3,2)"), C3: value("mine") });
    expect([(at("B2") as CellError).code, at("C3"), spills.size]).toEqual(["#SPILL!", "mine", 0]);
    expect(engine.problems.list()).toEqual([
      { address: "Log!B2", functionName: "ALGAL.TABLE", sentence: "The answer needs more cells than are free: clear the cells below and to the right, or move the formula." },
    ]);
  });

  test("rows of different length are filled with #N/A, and no rows at all give #CALC!", async () => {
    const { at } = await calculate({ A1: formula('ALGAL.GIVE("ragged")'), A5: formula('ALGAL.GIVE("empty")') });
    expect([at("A1"), at("B1"), at("A2"), (at("B2") as CellError).code, (at("A5") as CellError).code]).toEqual([1, 2, 3, "#N/A", "#CALC!"]);
  });

  test.each(["nan", "infinite"])("%s is #NUM!, never a number", async (kind) => {
    expect(((await calculate({ A1: formula(`ALGAL.GIVE("${kind}")`) })).at("A1") as CellError).code).toBe("#NUM!");
  });

  test("names are found in small letters, inside native functions and in LET", async () => {
    const { at } = await calculate({ A1: formula("algal.times_ten(2)"), A2: formula("SUM(ALGAL.TIMES_TEN(1),2)"), A3: formula("LET(x,ALGAL.TIMES_TEN(3),x+1)") });
    expect([at("A1"), at("A2"), at("A3")]).toEqual([20, 12, 31]);
  });
});

describe("a range where one value is wanted", () => {
  test("is lifted cell by cell, errors included", async () => {
    const { at } = await calculate({ A1: value(1), A2: value("x"), A3: value(3), C1: formula("ALGAL.TIMES_TEN(A1:A3)") });
    expect([at("C1"), (at("C2") as CellError).code, at("C3")]).toEqual([10, "#VALUE!", 30]);
  });

  test("a row against a column gives a table, and what the ranges do not reach is #N/A", async () => {
    const { at } = await calculate({ A1: formula('ALGAL.FAIL({"value";"missing"},{"a","b"})'), A5: formula("ALGAL.TABLE({1,1,1},{1,1})") });
    expect(["A1", "B1", "A2", "B2"].map((address) => (at(address) as CellError).code)).toEqual(["#VALUE!", "#VALUE!", "#N/A", "#N/A"]);
    expect([at("A5"), at("B5"), (at("C5") as CellError).code]).toEqual([101, 101, "#N/A"]);
  });

  test("is refused where the answer is a range itself", async () => {
    const { at } = await calculate({ A1: formula("ALGAL.TABLE({2;2},1)") });
    expect((at("A1") as CellError).message).toBe("ALGAL.TABLE answers with a range here, so its single-value arguments take one cell, not a range.");
  });
});

describe("a workbook with tables", () => {
  const withTable = (formulas: Record<string, BookCell>, table: Partial<BookTable> = {}): Book => {
    const opened = book(["Log", { A1: value("NO3"), B1: value("Feed"), A2: value(5), B2: value(1), A3: value(7), B3: value(2), A4: value(99), ...formulas }]);
    const [sheet] = opened.sheets;
    if (sheet) sheet.tables = [{ name: "Readings", ref: "A1:B3", columns: ["NO3", "Feed"], hasHeadings: true, hasTotals: false, ...table }];
    return opened;
  };
  const show = async (opened: Book, address: string) => {
    engine.open(opened);
    return (await engine.calculate())[0]?.values.get(address);
  };

  test("reads a column by its name", async () => {
    await show(withTable({ D1: formula("ALGAL.SEE(Readings[NO3])") }), "D1");
    expect(seen.args).toEqual([[[[5], [7]], null, null, null]]);
  });

  test("leaves the row of totals out of a column", async () => {
    expect(await show(withTable({ D1: formula("SUM(Readings[NO3])") }, { ref: "A1:B4", hasTotals: true }), "D1")).toBe(12);
  });

  test("reads a table's row of totals", async () => {
    const shown = await show(withTable({ D1: formula("SUM(Readings[[#Totals],[NO3]])") }, { ref: "A1:B4", hasTotals: true }), "D1");
    expect(shown).toBe(99);
  });
});

describe("a sheet whose name has an exclamation mark", () => {
  test("is read by formulas of every sheet and by names, and keeps its name", async () => {
    const own = book(
      ["Look here!", { A1: value(10), A2: value(20), B1: formula("SUM('Look here!'!A1:A2)"), B2: formula("ALGAL.TIMES_TEN('look here!'!A2)") }],
      ["Look here_", { A1: value(1) }],
      ["it's !", { A1: value(7) }],
      ["Log", { A1: formula("'Look here!'!A1*2"), A2: formula("SUM(Both)+'Look here_'!A1"), A3: formula("'it''s !'!A1&\"'Look here!'!A1\"") }],
    );
    engine.open({ ...own, names: [{ name: "Both", ref: "'Look here!'!$A$1:$A$2" }] });
    const sheets = await engine.calculate();
    expect(sheets.map(({ name }) => name)).toEqual(["Look here!", "Look here_", "it's !", "Log"]);
    expect(["B1", "B2"].map((cell) => sheets[0]?.values.get(cell))).toEqual([30, 200]);
    expect(["A1", "A2", "A3"].map((cell) => sheets[3]?.values.get(cell))).toEqual([20, 31, "7'Look here!'!A1"]);
  });
});

describe("a workbook that counts days from 1904", () => {
  const from1904 = (cells: Record<string, BookCell>): Book => ({ ...book(["Log", cells]), date1904: true });

  test("is refused where a formula asks for a calendar date", () => {
    expect(() => engine.open(from1904({ A1: value(43830), B2: formula("YEAR(A1)") }))).toThrow(
      "This workbook counts days from 1904, and the formula in Log, cell B2, asks for a calendar date",
    );
  });

  test("is calculated where only differences of dates matter", async () => {
    engine.open(from1904({ A1: value(43830), A2: value(43837), B2: formula("A2-A1"), B3: formula("ALGAL.TIMES_TEN(A2-A1)") }));
    const [sheet] = await engine.calculate();
    expect([sheet?.values.get("B2"), sheet?.values.get("B3")]).toEqual([7, 70]);
  });
});

describe("a figure in a formula is a number, however it is written", () => {
  // What Excel answers; it writes such figures anew as soon as they are typed, other programs keep them.
  test.each([
    ["IF(20<0.50,1,2)", 2],
    ["IF(0.50<1,1,2)", 1],
    ["IF(-0.50<1,1,2)", 1],
    ["IF(.5<1,1,2)", 1],
    ["IF(1E-3<1,1,2)", 1],
    ["1E-9", 1e-9],
    ["2.5e+3*2", 5000],
    ["1.0", 1],
    ["007", 7],
    ['1.5E-3&"x"', "0.0015x"],
    ["SUM({1E-3,0.50})", 0.501],
    ["IF(INDEX({1,0.50},2)=0.5,1,2)", 1],
    ["IF(50.0%=0.5,1,2)", 1],
    ["IF(12345678901234567890>1,1,2)", 1],
    ['IF("0.50"=0.5,1,2)', 2],
    ['"0.50"&"1E-3"', "0.501E-3"],
    ['LEN("a 0.50, {1.0}")', 13],
    ["ISERROR(1E400)", true],
    ['SUMIF(B1:B3,">0.50")', 5],
    ['SUMIFS(B1:B3,B1:B3,"<=1E-3")', 0.001],
    ['COUNTIF(B1:B3,"2.0")', 1],
  ] as const)("%s", async (text, expected) => {
    expect((await calculate({ A1: formula(text), B1: value(2), B2: value(3), B3: value(0.001) })).at("A1")).toEqual(expected);
  });

  test("and a text in a cell stays a text", async () => {
    const { at } = await calculate({ A1: value("0.50"), A2: value("1E-3"), B1: formula("A1=0.5"), B2: formula("ISTEXT(A2)"), B3: formula('A1&""') });
    expect([at("B1"), at("B2"), at("B3")]).toEqual([false, true, "0.50"]);
  });
});

describe("the engine's own functions answer as Excel's do", () => {
  // A: 1 to 6; B: 3, the text "5", blank, TRUE, 4, 2; C: texts only, two of them of figures. By Excel's published descriptions of its
  // functions: texts and truth values in a range are no numbers, a pair without two numbers is left out, fewer than two have no spread.
  const others = { C9: value("1"), D1: value(-100), D2: value("50"), D3: value(0), D4: value(121) };
  const cells = Object.fromEntries([3, "5", null, true, 4, 2].flatMap((one, row) => [[`A${row + 1}`, value(row + 1)], ...(one === null ? [] : [[`B${row + 1}`, value(one)]]), [`C${row + 1}`, value(["a", "5", "b", "12", "c", "d"][row] ?? "")]]));

  test.each([
    ["MEDIAN(B1:B6)", 3],
    ["MEDIAN(C1:C6)", "#NUM!"],
    ['MEDIAN("5",1)', 3],
    ["DEVSQ(B1:B6)", 2],
    ["GEOMEAN(B1:B6)", 24 ** (1 / 3)],
    ["STDEV(B1:B6)", 1],
    ["STDEV(C1:C6)", "#DIV/0!"],
    ["STDEV.S(B1:B3)", "#DIV/0!"],
    ["VAR(B1:B3,5)", 2],
    ["VAR.S(7)", "#DIV/0!"],
    ["AVERAGEA(C1:C6)", 0],
    ["AVERAGEA(B1:B6)", 2],
    // Pairs (1,3), (5,4), (6,2).
    ["SLOPE(B1:B6,A1:A6)", -1 / 14],
    ["INTERCEPT(B1:B6,A1:A6)", 3 + 4 / 14],
    ["FORECAST(8,B1:B6,A1:A6)", 3 + 4 / 14 - 8 / 14],
    ["CORREL(A1:A6,B1:B6)", -1 / Math.sqrt(14 * 2)],
    ["NPV(0,C1:C6)", 0],
    // Of 3, 4 and 2 among a text "5", a blank and a truth value.
    ["RANK(3,B1:B6)", 2],
    ["RANK.AVG(2,B1:B6)", 3],
    ["PERCENTRANK(B1:B6,3)", 0.5],
    // A text that is an argument by itself counts.
    ['LARGE(A1:A6,"2")', 5],
    ["PERCENTILE(A1:A6,C9)", 6],
    ["IRR(D1:D4)", 0.1],
    ["MAXIFS(A1:A6,B1:B6,99)", 0],
    ["MINIFS(A1:A6,B1:B6,99)", 0],
    ["MAXIFS(C1:C6,A1:A6,1)", 0],
    ["MAXIFS(A1:A6,B1:B6,4)", 5],
    ["VLOOKUP(3,A1:B6,2,FALSE)", 0],
    ["XLOOKUP(3,A1:A6,B1:B6)", 0],
    ["IF(A1=1,B3,7)", 0],
    ["IF(A1=1,B3,7)+1", 1],
    ['LEN(INDEX(B1:B6,3))', 0],
  ] as const)("%s", async (text, expected) => {
    const answer = (await calculate({ ...cells, ...others, E1: formula(text) })).at("E1");
    if (typeof expected === "number") expect(answer).toBeCloseTo(expected, 12);
    else expect(answer).toMatchObject({ code: expected });
  });

  test.each([
    // As many digits as a spreadsheet program shows.
    ['"Mean "&5/6&" g"', "Mean 0.833333333333333 g"],
    ['5/6&""', "0.833333333333333"],
    ["A1/3&B1", "0.3333333333333333"],
    ['CONCATENATE(A1/3," ",TRUE)', "0.333333333333333 TRUE"],
    ["CONCAT(A1/3,A2)", "0.3333333333333332"],
    ['TEXTJOIN("; ",TRUE,5/6,A1:A2)', "0.833333333333333; 1; 2"],
    ['1/4&" and "&-0.1', "0.25 and -0.1"],
    ['10^-7/4&""', "2.5E-08"],
    ['PROPER("grüner tee, ÄPFEL o\'neil")', "Grüner Tee, Äpfel O'Neil"],
  ] as const)("%s is a text", async (text, expected) => {
    expect((await calculate({ ...cells, E1: formula(text) })).at("E1")).toBe(expected);
  });

  test.each([
    ['COUNTIF(G1:G3,"="&G1)', 1],
    ['COUNTIF(G1:G3,"<="&G1)', 1],
    ['COUNTIF(G1:G3,"<>"&G2)', 2],
    ['SUMIFS(H1:H3,G1:G3,">="&G2,G1:G3,"<="&G3)', 6],
  ] as const)("a time of day meets its own condition: %s", async (text, expected) => {
    const times = Object.fromEntries([46055 + 1 / 3, 46056.8, 46057 + 1 / 7].flatMap((time, row) => [[`G${row + 1}`, value(time)], [`H${row + 1}`, value(2 ** row)]]));
    expect((await calculate({ ...times, E1: formula(text) })).at("E1")).toBe(expected);
  });

  test("every minute of a day is that minute, and a time rounds to the whole second", async () => {
    const times = Array.from({ length: 1440 }, (_, minute) => [`A${minute + 1}`, value(46055 + minute / 1440)]);
    const { at } = await calculate({ ...Object.fromEntries(times), E1: formula("HOUR(A1:A1440)*60+MINUTE(A1:A1440)"), F1: formula("SECOND(A1:A1440)"), G1: formula("SECOND(0.6/86400)"), G2: formula("MINUTE(A1441)"), G3: formula('MINUTE("10:05")') });
    expect(times.map((_, minute) => at(`E${minute + 1}`))).toEqual(times.map((_, minute) => minute));
    expect(times.filter((_, minute) => at(`F${minute + 1}`) !== 0)).toEqual([]);
    expect(["G1", "G2", "G3"].map(at)).toEqual([1, 0, 5]);
  });

  test("a range that spills shows 0 for its blank cells", async () => {
    const { at } = await calculate({ ...cells, E1: formula("B2:B4") });
    expect([at("E1"), at("E2"), at("E3")]).toEqual(["5", 0, true]);
  });
});

describe("what a calculation gives", () => {
  test("is every cell that shows something, or the formulas and what they spill alone", async () => {
    const cells = { A1: value(3), A2: value("#N/A"), B1: formula("SEQUENCE(2)"), C1: formula("A1*2") };
    engine.open(book(["Log", cells]));
    const [[all], [formulas]] = [await engine.calculate(), await engine.calculate("formulas")];
    expect([...(all?.values.keys() ?? [])].sort()).toEqual(["A1", "A2", "B1", "B2", "C1"]);
    expect([...(formulas?.values ?? [])].sort()).toEqual([["B1", 1], ["B2", 2], ["C1", 6]]);
    expect([...(formulas?.spills ?? [])]).toEqual([["B1", "B1:B2"]]);
  });

  test.each([
    ["LET(x,A1,x+1)", [2, 2, 8]],
    ["LET(x,A1,y,x*2,SUM(x,y))", [3, 3, 21]],
    ["LET(x,A1:A2,SUM(x))", [6, 6, 12]],
    ["LAMBDA(x,x+A1)(2)", [3, 3, 9]],
    ["SUM(MAP(A1:A2,LAMBDA(x,x*2)))", [12, 12, 24]],
  ] as const)("of %s is right each time, in the same workbook and in the next", async (text, expected) => {
    const found: unknown[] = [];
    for (const given of [1, 1, 7]) {
      found.push((await calculate({ A1: value(given), A2: value(5), B1: formula(text) })).at("B1"));
      expect((await engine.calculate("formulas"))[0]?.values.get("B1")).toBe(found[found.length - 1]);
    }
    expect(found).toEqual(expected);
  });

  test("is of the workbook that is open, however soon one follows the other and however long one takes", async () => {
    const found: unknown[] = [];
    for (const [text, address] of [["SUM(SEQUENCE(400,40))", "A1"], ["SEQUENCE(300,40)", "AN300"], ["1+1", "A1"], ["SUM(SEQUENCE(3))", "A1"]] as const) {
      engine.open(book(["Log", { AZ400: value(1), A1: formula(text) }]));
      found.push((await engine.calculate("formulas"))[0]?.values.get(address));
    }
    expect(found).toEqual([128_008_000, 12_000, 2, 6]);
  });
});

describe("one formula by itself", () => {
  test("gives its answer as rows, a single answer as one row of one", async () => {
    expect(await engine.formula("=ALGAL.TABLE(2,3)")).toEqual([[101, 102, 103], [201, 202, 203]]);
    expect(await engine.formula("=ALGAL.TIMES_TEN(4.2)")).toEqual([[42]]);
    expect(await engine.formula("1+1")).toEqual([[2]]);
  });

  test("gives an error with its sentence", async () => {
    expect(await engine.formula('=ALGAL.FAIL("missing","No kit steps.")')).toEqual([[new CellError("#N/A", "No kit steps.")]]);
  });

  test("has room for a long answer", async () => {
    const rows = await engine.formula("=ALGAL.TABLE(5000,30)");
    expect([rows.length, rows[4999]?.[29]]).toEqual([5000, 500030]);
  });
});
