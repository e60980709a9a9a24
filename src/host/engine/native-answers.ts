import { CellValueType, type Injector } from "@univerjs/core";
import { type ArrayValueObject, type BaseFunction, type BaseReferenceObject, type BaseValueObject, ErrorType, ErrorValueObject, FormulaRuntimeService, type FunctionVariantType, IFunctionService, NullValueObject, NumberValueObject, StringValueObject } from "@univerjs/engine-formula";
import { isCondition, numbersAsTexts } from "./number-texts";

/** Functions that count numbers alone in a range: a reading kept as the text "5" is none. The engine takes it for one. */
const OF_NUMBERS = [
  ..."MEDIAN MODE MODE.SNGL GEOMEAN HARMEAN AVEDEV DEVSQ SKEW SKEW.P KURT TRIMMEAN NPV LARGE SMALL PERCENTILE PERCENTILE.INC PERCENTILE.EXC QUARTILE QUARTILE.INC QUARTILE.EXC PERCENTRANK PERCENTRANK.INC PERCENTRANK.EXC IRR MIRR STDEV.P STDEVP VAR.P VARP".split(" "),
  // Of pairs: one without a number on both sides is left out.
  ..."CORREL PEARSON RSQ SLOPE INTERCEPT STEYX FORECAST FORECAST.LINEAR COVAR COVARIANCE.P COVARIANCE.S T.TEST TTEST F.TEST FTEST CHISQ.TEST CHITEST".split(" "),
];
/** The same of functions that are given the cells themselves. */
const RANKS = "RANK RANK.EQ RANK.AVG".split(" ");
/** The same, and without an answer for fewer than two numbers, where the engine gives 0. */
const OF_TWO_NUMBERS = "STDEV STDEV.S VAR VAR.S".split(" ");
/** Functions for which a text in a range is a 0. */
const TEXTS_AS_ZERO = "AVERAGEA STDEVA STDEVPA VARA VARPA".split(" ");
/** Where nothing meets the conditions, Excel answers 0, and the engine nothing or an endless number. */
const OF_CONDITIONS = "MAXIFS MINIFS".split(" ");
/** Functions of the time of a day: Excel rounds to the whole second, and the engine cuts off, so that 00:05 has four minutes by a hair. */
const OF_TIMES = "HOUR MINUTE SECOND".split(" ");
/** Half a second less a hair, days. */
const ROUNDS_TO_SECOND = 0.4995 / 86_400;
/** Functions that join texts (the sign & is the first of them), with the number of arguments before those. */
const OF_TEXTS = { CONCATENATE: 0, CONCAT: 0, TEXTJOIN: 2 } as const;

type Calculate = (this: BaseFunction, ...given: BaseValueObject[]) => FunctionVariantType;

const changed = new WeakSet<object>();

/** Corrects the engine's own functions where they answer otherwise than Excel, as the published descriptions of its functions say. */
export function correctNativeAnswers(injector: Injector): void {
  answerBlanksWithZero();
  const service = injector.get(IFunctionService);
  const wrap = (names: readonly string[], around: (calculate: Calculate) => Calculate): void => {
    for (const name of names) {
      const executor = service.getExecutor(name);
      if (!executor || changed.has(executor)) continue;
      changed.add(executor);
      executor.calculate = around(executor.calculate as Calculate) as BaseFunction["calculate"];
    }
  };
  for (const name of RANKS) rankNumbersOnly(service.getExecutor(name) as unknown as Ranking | undefined);
  const numbersOnly = (given: readonly BaseValueObject[]): BaseValueObject[] => given.map((one) => withoutTexts(one, () => NullValueObject.create()));
  wrap(OF_NUMBERS, (calculate) => function (...given) {
    return calculate.apply(this, numbersOnly(given));
  });
  wrap(OF_TWO_NUMBERS, (calculate) => function (...given) {
    const answer = calculate.apply(this, numbersOnly(given));
    return !answer.isError() && numbersIn(given) < 2 ? ErrorValueObject.create(ErrorType.DIV_BY_ZERO) : answer;
  });
  wrap(TEXTS_AS_ZERO, (calculate) => function (...given) {
    return calculate.apply(this, given.map((one) => withoutTexts(one, () => NumberValueObject.create(0))));
  });
  wrap(OF_CONDITIONS, (calculate) => function (...given) {
    const answer = calculate.apply(this, given);
    const finite = (one: BaseValueObject): BaseValueObject => (one.isNull() || one.getValue() === "" || Math.abs(Number(one.getValue())) === Infinity ? NumberValueObject.create(0) : one);
    if (answer.isError() || answer.isReferenceObject()) return answer;
    return answer.isArray() ? (answer as BaseValueObject).mapValue(finite) : finite(answer as BaseValueObject);
  });
  wrap(OF_TIMES, (calculate) => function (...given) {
    return calculate.apply(this, given.map((one) => eachNumber(one, (days) => days + ROUNDS_TO_SECOND)));
  });
  for (const [name, before] of Object.entries(OF_TEXTS)) {
    wrap([name], (calculate) => function (...given) {
      return calculate.apply(this, isCondition(given[0]) ? given : given.map((one, at) => (at < before ? one : numbersAsTexts(one))));
    });
  }
  // The engine knows no letters but a to z, and writes GrüNer.
  wrap(["PROPER"], (calculate) => function (...given) {
    const answer = calculate.apply(this, given);
    const proper = (one: BaseValueObject): BaseValueObject => (one.isString() ? StringValueObject.create(String(one.getValue()).toLowerCase().replace(/(?<!\p{L})\p{L}/gu, (letter) => letter.toUpperCase())) : one);
    if (answer.isReferenceObject()) return answer;
    return answer.isArray() ? (answer as BaseValueObject).mapValue(proper) : proper(answer as BaseValueObject);
  });
}

function eachNumber(given: BaseValueObject, change: (value: number) => number): BaseValueObject {
  const one = (value: BaseValueObject): BaseValueObject => (value.isNumber() ? NumberValueObject.create(change(Number(value.getValue()))) : value);
  return given.isArray() ? given.mapValue(one) : one(given);
}

interface Ranking {
  _checkRefReferenceObject(cells: BaseReferenceObject): { readonly refHasError: boolean; readonly refNumbers: number[] };
}

function rankNumbersOnly(executor: Ranking | undefined): void {
  if (!executor || changed.has(executor)) return;
  changed.add(executor);
  const check = executor._checkRefReferenceObject.bind(executor);
  executor._checkRefReferenceObject = (cells) => {
    const found = check(cells);
    if (found.refHasError) return found;
    const refNumbers: number[] = [];
    eachValue(cells.toArrayValueObject(), (value) => void (value.isNumber() && refNumbers.push(Number(value.getValue()))));
    return { ...found, refNumbers };
  };
}

/** An array with another value for each text; a single value stays, for a text that is an argument by itself counts. */
function withoutTexts(given: BaseValueObject, other: () => BaseValueObject): BaseValueObject {
  if (!given.isArray() || (given as ArrayValueObject).getRowCount() * (given as ArrayValueObject).getColumnCount() === 1) return given;
  let hasTexts = false;
  eachValue(given, (one) => (hasTexts ||= one.isString()));
  return hasTexts ? given.mapValue((one) => (one.isString() ? other() : one)) : given;
}

/** How many numbers: in ranges those alone, as arguments also truth values and texts that are one. */
function numbersIn(given: readonly BaseValueObject[]): number {
  let count = 0;
  for (const one of given) {
    if (one.isArray()) eachValue(one, (value) => (count += value.isNumber() ? 1 : 0));
    else if (!one.isNull()) count += 1;
  }
  return count;
}

function eachValue(array: BaseValueObject, visit: (value: BaseValueObject) => void): void {
  array.mapValue((value) => {
    visit(value);
    return value;
  });
}

let answersZero = false;

/** A formula whose answer is a blank cell, as =IF(A2>0,B2) and a look-up can give, shows 0; the engine keeps that for plain references. */
function answerBlanksWithZero(): void {
  if (answersZero) return;
  answersZero = true;
  const shown = FormulaRuntimeService.prototype["_getValueObjectOfRuntimeData"];
  FormulaRuntimeService.prototype["_getValueObjectOfRuntimeData"] = function (answer: FunctionVariantType | null) {
    const isBlank = !answer || (answer.isValueObject() && (answer as BaseValueObject).isNull());
    return isBlank ? { v: 0, t: CellValueType.NUMBER } : shown.call(this, answer);
  };
}
