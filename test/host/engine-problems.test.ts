import type { BookCell } from "../../src/files/book";
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

async function problemsOf(formulas: Record<string, string>, sheet = "Log", typed: Record<string, BookCell["value"]> = {}) {
  const cells: [string, BookCell][] = Object.entries(formulas).map(([address, formula]) => [address, { value: null, formula }]);
  const constants: [string, BookCell][] = Object.entries(typed).map(([address, value]) => [address, { value }]);
  engine.open({ sheets: [{ name: sheet, cells: new Map([...constants, ...cells]) }], names: [], date1904: false });
  await engine.calculate();
  return engine.problems.list();
}

describe("the list of problems", () => {
  test.each([
    ["value", "#VALUE!"],
    ["missing", "#N/A"],
    ["number", "#NUM!"],
    ["divide", "#DIV/0!"],
  ])("tells the sentence of a problem of the kind %s, which shows %s", async (kind, code) => {
    expect(await problemsOf({ B2: `ALGAL.FAIL("${kind}","What is wrong.")` })).toEqual([
      { address: "Log!B2", functionName: "ALGAL.FAIL", sentence: "What is wrong." },
    ]);
    const [sheet] = await engine.calculate();
    expect(sheet?.values.get("B2")).toEqual({ code, message: "What is wrong." });
  });

  test("names a function that is not there, and nothing for another name that is not known", async () => {
    expect(await problemsOf({ A1: 'ALGAL.NOPE(1)+ALGAL.TIMES_TEN(2)', A2: "no_such_name+1", A3: 'IFERROR(ALGAL.NOPE(1),"none")' })).toEqual([
      { address: "Log!A1", functionName: "ALGAL.NOPE", sentence: "There is no worksheet function ALGAL.NOPE. The pane lists them all under Functions." },
    ]);
    expect(await problemsOf({ A1: "ALGAL.TIMES_TEN(2)" })).toEqual([]);
  });

  test("quotes the sheet's name where Excel does", async () => {
    expect((await problemsOf({ A1: 'ALGAL.TIMES_TEN("x")' }, "Tank 2's log"))[0]?.address).toBe("'Tank 2''s log'!A1");
    expect((await problemsOf({ A1: 'ALGAL.TIMES_TEN("x")' }, "AB12"))[0]?.address).toBe("'AB12'!A1");
  });

  test("places each error of a spilled answer at its own cell", async () => {
    const listed = await problemsOf({ C5: 'ALGAL.GIVE("mixed")' });
    expect(listed.map(({ address, sentence }) => [address, sentence])).toEqual([
      ["Log!D5", "No reading."],
      ["Log!C6", "Not understood."],
    ]);
  });

  test("places an error inside a larger formula at the formula", async () => {
    expect((await problemsOf({ C5: 'SUM(ALGAL.TIMES_TEN({1,"x"}))' })).map(({ address }) => address)).toEqual(["Log!C5"]);
  });

  test("places an error at the formula where the answer was turned round on its way", async () => {
    const listed = await problemsOf({ C5: 'TRANSPOSE(ALGAL.TIMES_TEN({1;"x";3}))', C9: 'IFERROR(ALGAL.TIMES_TEN({1;"x";3}),0)' });
    expect(listed).toEqual([{ address: "Log!C5", functionName: "ALGAL.TIMES_TEN", sentence: '"x" is not a number.' }]);
  });

  test("leaves out what the formula catches, and the arm of an IF that is not taken", async () => {
    expect(await problemsOf({ A1: 'IFERROR(ALGAL.TIMES_TEN("x"),"none")', A2: 'IF(1=1,ALGAL.TIMES_TEN(1),ALGAL.TIMES_TEN("x"))' })).toEqual([]);
  });

  test("names each function of a formula that goes wrong", async () => {
    const listed = await problemsOf({ A1: 'ALGAL.TIMES_TEN("x")+ALGAL.FAIL("value","Second.")' });
    expect(listed.map(({ functionName, sentence }) => [functionName, sentence])).toEqual([
      ["ALGAL.TIMES_TEN", '"x" is not a number.'],
      ["ALGAL.FAIL", "Second."],
    ]);
  });

  test("tells a wrong number of arguments, an argument that is no value, and a fault of ours, and goes on with other cells", async () => {
    const listed = await problemsOf({ A1: "ALGAL.TIMES_TEN()", A2: "ALGAL.TIMES_TEN(1,2)", A3: "ALGAL.TIMES_TEN(LAMBDA(x,x))", A4: "ALGAL.BROKEN()", A5: "ALGAL.TIMES_TEN(7)" });
    expect(Object.fromEntries(listed.map(({ address, sentence }) => [address, sentence]))).toEqual({
      "Log!A1": "ALGAL.TIMES_TEN needs one argument, and got none.",
      "Log!A2": "ALGAL.TIMES_TEN takes at most one argument, and got 2.",
      "Log!A3": "ALGAL.TIMES_TEN is given something that is not a value, such as a LAMBDA without its arguments.",
      "Log!A4": "ALGAL.BROKEN could not calculate because of a fault in Algal Ledger: x is undefined",
    });
    expect((await engine.calculate())[0]?.values.get("A5")).toBe(70);
  });

  test("is empty again when another workbook is opened", async () => {
    expect(await problemsOf({ A1: 'ALGAL.TIMES_TEN("x")' })).toHaveLength(1);
    expect(await problemsOf({ A1: "ALGAL.TIMES_TEN(1)" })).toEqual([]);
  });

  test("takes the later of two sentences when a cell is calculated again after a spill that it reads", async () => {
    const listed = await problemsOf({ E1: "ALGAL.FAIL(\"value\",TEXT(B3,\"0\"))", A1: "ALGAL.TABLE(3,2)" });
    expect(listed.map(({ sentence }) => sentence)).toEqual(["302"]);
  });
});

describe("a formula that many cells repeat", () => {
  test("is worked out once in a calculation, and again in the next", async () => {
    seen.args = [];
    await problemsOf({ C1: "INDEX(ALGAL.SEE(A1:A2,5),1)", C2: "INDEX(ALGAL.SEE(A1:A2,5),1)", C3: "ALGAL.SEE(A1:A2,5)", C4: "ALGAL.SEE(A1:A2,6)" }, "Log", { A1: 1, A2: 2 });
    expect(seen.args.map((args) => args[1]).sort()).toEqual([5, 6]);
    await engine.calculate();
    expect(seen.args).toHaveLength(4);
  });

  test("is not mixed up with one that reads other cells of the same values, or another kind of value", async () => {
    seen.args = [];
    await problemsOf({ C1: "ALGAL.SEE(A1:A2)", C2: "ALGAL.SEE(B1:B2)", C3: 'ALGAL.SEE(1,"1")', C4: "ALGAL.SEE(1,1)", C5: "ALGAL.SEE(1,TRUE)" }, "Log", { A1: 1, A2: 2, B1: 1, B2: 3 });
    expect(seen.args.map((args) => args[0])).toEqual(expect.arrayContaining([[[1], [2]], [[1], [3]]]));
    expect(seen.args.map((args) => args[1])).toEqual(expect.arrayContaining(["1", 1, true]));
  });
});
