import { ErrorType, ErrorValueObject, NumberValueObject, ValueObjectFactory } from "@univerjs/engine-formula";

const FIGURE = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?\s*$/i;

let kept = false;

/**
 * The engine takes a figure in a formula, or in a condition such as ">0.50", for a text unless it is written as JavaScript writes it,
 * so that 0.50, 1.0, .5 and 1E-3 are texts there, and 20<0.50 is true, for a text comes after every number. Here each is read as the
 * number that it is. Texts in quotes, and those of cells, do not come this way.
 */
export function readFigures(): void {
  if (kept) return;
  kept = true;
  const create = ValueObjectFactory.create;
  ValueObjectFactory.create = (raw, ...rest) => {
    if (typeof raw !== "string" || !FIGURE.test(raw)) return create.call(ValueObjectFactory, raw, ...rest);
    const figure = Number(raw);
    return Number.isFinite(figure) ? NumberValueObject.create(figure) : ErrorValueObject.create(ErrorType.NUM);
  };
}
