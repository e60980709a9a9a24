import { cellAddress } from "../address";
import { customFunctionsIn, fromStored } from "../formula-text";
import { type StoredCell, walkSheet } from "../sheet-walk";
import { applyEdits, type Edit, withAttribute } from "../xml";

export interface FrozenSheet {
  readonly xml: string;
  /** Cells whose formula was replaced by its value. */
  readonly frozen: readonly string[];
  /** Of these, the ones in which no value was stored: they are blank now. */
  readonly blank: readonly string[];
}

/** "A1#" as the file holds it: it reads what spills from a cell, and nothing spills from a value. */
const READS_SPILL = /ANCHORARRAY\s*\(/i;

/** Whether a stored formula can only be calculated where the add-in is, or reads a cell that is frozen as one that spills. */
export const needsAddIn = (stored: string): boolean => READS_SPILL.test(stored) || (/_xl|ALGAL/i.test(stored) && customFunctionsIn(fromStored(stored)).length > 0);

/** A worksheet part in which the formulas that need the add-in are gone and their values stand. All other text of the part stays. */
export function freezeSheet(xml: string, part: string): FrozenSheet {
  const cells: StoredCell[] = [];
  const sharedIds = new Set<string>();
  walkSheet(xml, part, {
    places: true,
    cell(stored) {
      if (!stored.formula) return;
      cells.push(stored);
      const { kind, sharedId, text } = stored.formula;
      if (kind === "shared" && sharedId !== undefined && needsAddIn(text)) sharedIds.add(sharedId);
    },
  });
  const ours = cells.filter(({ formula }) => formula && (needsAddIn(formula.text) || (formula.kind === "shared" && formula.sharedId !== undefined && sharedIds.has(formula.sharedId))));
  const addressOf = ({ row, column }: StoredCell): string => cellAddress(row, column);
  return {
    xml: ours.length > 0 ? applyEdits(xml, ours.flatMap((cell) => withoutFormula(xml, cell))) : xml,
    frozen: ours.map(addressOf),
    blank: ours.filter(({ value, inline }) => !value && !inline).map(addressOf),
  };
}

/** The formula goes, and the mark that it spills. */
function withoutFormula(xml: string, { start, tagEnd, formula, metadata }: StoredCell): Edit[] {
  const edits: Edit[] = formula ? [{ start: formula.start, end: formula.end, text: "" }] : [];
  if (metadata > 0) edits.push({ start, end: tagEnd, text: withAttribute(xml.slice(start, tagEnd), "cm", undefined) });
  return edits;
}
