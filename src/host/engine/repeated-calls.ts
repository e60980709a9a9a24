import type { BaseValueObject } from "@univerjs/engine-formula";
import { rowsOfAnswer } from "./answer";

const KEPT_CALLS = 4;

interface Call<Answer> {
  given: readonly BaseValueObject[];
  answer: Answer;
}

/**
 * Remembers the last answers of one function within one calculation. A sheet of INDEX(ALGAL.BUDGET_N(...),row,column) asks for the
 * same budget in every cell; functions give the same answer to the same arguments, so it is worked out once.
 */
export class RepeatedCalls<Answer> {
  private calls: Call<Answer>[] = [];

  answer(given: readonly BaseValueObject[], calculate: () => Answer, again: (known: Answer) => Answer): Answer {
    const known = this.calls.find((call) => sameArguments(call.given, given));
    if (known) return again(known.answer);
    const answer = calculate();
    this.calls = [{ given, answer }, ...this.calls.slice(0, KEPT_CALLS - 1)];
    return answer;
  }

  /** At the end of a calculation: cells may hold other values in the next. */
  forget(): void {
    this.calls = [];
  }
}

function sameArguments(before: readonly BaseValueObject[], now: readonly BaseValueObject[]): boolean {
  return before.length === now.length && before.every((argument, i) => sameArgument(argument, now[i]));
}

/** The engine makes one object of a range for all formulas that read it in one round; other arrays count as different, unless they are one answer of ours. */
function sameArgument(before: BaseValueObject, now: BaseValueObject | undefined): boolean {
  if (before === now) return true;
  const rows = rowsOfAnswer(before);
  if (rows !== undefined && now && rows === rowsOfAnswer(now)) return true;
  if (!now || !isPlain(before) || !isPlain(now)) return false;
  return before.isNull() === now.isNull() && before.isError() === now.isError() && Object.is(before.getValue(), now.getValue());
}

function isPlain(object: BaseValueObject): boolean {
  return object.isValueObject() && !object.isArray() && !object.isReferenceObject() && !object.isLambda();
}
