import type { Book } from "../files/book";
import { formulaTokens, isCall, isSheetName, nextPlace } from "../files/formula-tokens";

/** A name of the workbook whose formula needs the add-in, or another such name. */
export interface DroppedName {
  readonly name: string;
  readonly ref: string;
}

/** The names that cannot stand in a copy, and what reads them. */
export class DroppedNames {
  readonly names: readonly DroppedName[];
  private readonly known: ReadonlySet<string>;

  constructor({ names }: Pick<Book, "names">) {
    const known = new Set<string>();
    const dropped: DroppedName[] = [];
    // One name may stand for another.
    for (let before = -1; before < known.size; ) {
      before = known.size;
      for (const { name, ref } of names) {
        if (known.has(name.toLowerCase()) || !(/ALGAL\./i.test(ref) || reads(ref, known))) continue;
        known.add(name.toLowerCase());
        dropped.push({ name, ref });
      }
    }
    [this.names, this.known] = [dropped, known];
  }

  has(name: string): boolean {
    return this.known.has(name.toLowerCase());
  }

  /** Whether a formula reads one of them. */
  isRead(formula: string): boolean {
    return this.known.size > 0 && reads(formula, this.known);
  }
}

function reads(formula: string, names: ReadonlySet<string>): boolean {
  const tokens = formulaTokens(formula);
  return tokens.some((token, at) => token.kind === "word" && names.has(token.text.toLowerCase()) && !isCall(tokens, at) && !isSheetName(tokens, at) && tokens[nextPlace(tokens, at)]?.text !== "[");
}
