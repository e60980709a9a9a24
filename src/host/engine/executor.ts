import { BaseFunction, type BaseValueObject } from "@univerjs/engine-formula";
import { CellError, cellErrorFrom } from "../../functions/cell-error";
import { host } from "../../words/host";
import { type Answer, answeredAgain, type ElementError, writeAnswer } from "./answer";
import { readArgument } from "./argument";
import { liftSingles } from "./lift";
import { type FunctionMetadata, sheetName, type SheetFunction } from "./metadata";
import { RepeatedCalls } from "./repeated-calls";

/** Where a call stands and what was wrong in its answer; empty when it calculated well. */
export interface CallReport {
  unitId: string;
  sheetId: string;
  row: number;
  column: number;
  functionName: string;
  /** Rows and columns of the answer. */
  height: number;
  width: number;
  errors: ElementError[];
}

/** One worksheet function as the calculation engine calls it. */
export class SheetFunctionExecutor extends BaseFunction {
  private readonly takesRange: boolean[];
  private readonly needed: number;
  private readonly repeated = new RepeatedCalls<Answer>();

  constructor(
    private readonly entry: FunctionMetadata,
    private readonly implementation: SheetFunction,
    private readonly report: (call: CallReport) => void,
  ) {
    super(sheetName(entry));
    this.takesRange = entry.parameters.map((parameter) => parameter.dimensionality === "matrix");
    this.needed = entry.parameters.filter((parameter) => !parameter.optional).length;
  }

  /** Otherwise a text literal such as "2024-01-01" or "10%" would arrive as a number. */
  override isArgumentsIgnoreNumberPattern(): boolean {
    return true;
  }

  override calculate(...given: BaseValueObject[]): BaseValueObject {
    const { object, ...answer } = this.repeated.answer(given, () => writeAnswer(String(this.name), this.answer(given)), answeredAgain);
    this.report({
      unitId: this.unitId ?? "",
      sheetId: this.subUnitId ?? "",
      row: this.row,
      column: this.column,
      functionName: String(this.name),
      ...answer,
    });
    return object;
  }

  /** To be called when a calculation has ended. */
  forgetCalls(): void {
    this.repeated.forget();
  }

  private answer(given: BaseValueObject[]): unknown {
    const name = String(this.name);
    const most = this.entry.parameters.length;
    if (given.length > most) return new CellError("#VALUE!", host.tooManyArguments(name, most, given.length));
    if (given.length < this.needed) return new CellError("#VALUE!", host.tooFewArguments(name, this.needed, given.length));
    const args: (unknown[][] | null)[] = [];
    for (let i = 0; i < most; i += 1) {
      const argument = readArgument(given[i]);
      if (argument.kind === "unusable") return new CellError("#VALUE!", host.notAValue(name));
      args.push(argument.kind === "rows" ? argument.rows : null);
    }
    return liftSingles(name, args, this.takesRange, (element) => this.call(name, element));
  }

  private call(name: string, args: unknown[]): unknown {
    try {
      return this.implementation(...(args as never[]));
    } catch (error) {
      try {
        return cellErrorFrom(error);
      } catch (fault) {
        // A fault of ours must not stop the calculation of the user's other cells.
        return new CellError("#VALUE!", host.fault(name, fault instanceof Error ? fault.message : String(fault)));
      }
    }
  }
}
