import { ValueNodeFactory } from "@univerjs/engine-formula";
import { formulaTokens } from "../../files/formula-tokens";

let kept = false;

/**
 * The engine takes a figure in a formula for a text unless it is written as JavaScript writes it, so that 0.50, 1.0, .5 and 1E-3 are
 * texts there, and 20<0.50 is true, for a text comes after every number. Here each is read as the number that it is.
 */
export function readFigures(): void {
  if (kept) return;
  kept = true;
  const create = ValueNodeFactory.prototype.create;
  ValueNodeFactory.prototype.create = function (token) {
    return create.call(this, withPlainFigures(token));
  };
}

/** `token`: a figure, a text with its quotes, an error, TRUE, or an array in braces. */
function withPlainFigures(token: string): string {
  return formulaTokens(token)
    .map(({ kind, text }) => (kind === "number" ? plainFigure(Number(text)) : text))
    .join("");
}

const plainFigure = (figure: number): string => (Number.isFinite(figure) ? String(figure) : "#NUM!");
