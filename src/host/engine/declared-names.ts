import { ErrorType, LexerNode, LexerTreeBuilder } from "@univerjs/engine-formula";

const DECLARES = /\b(?:LET|LAMBDA)\s*\(/i;

let kept = false;

/**
 * The engine keeps the tree that it has read a formula's text into, and puts the values of what LET and LAMBDA declare into that very
 * tree: the next workbook with the same text gets the values of the one before. Such a text is read anew each time.
 */
export function readDeclarationsAnew(): void {
  if (kept) return;
  kept = true;
  const build = LexerTreeBuilder.prototype.treeBuilder;
  LexerTreeBuilder.prototype.treeBuilder = function (text, inSuffixOrder = true, names) {
    if (!inSuffixOrder || !DECLARES.test(text)) return build.call(this, text, inSuffixOrder, names);
    // Without that order nothing is kept, and the order is made afterwards.
    const tree = build.call(this, text, false, names);
    return tree instanceof LexerNode && !this["_suffixExpressionHandler"](tree) ? ErrorType.VALUE : tree;
  };
}
