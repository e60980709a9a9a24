import { cellAddress } from "../files/address";
import { withFrozenFormats } from "../files/hand-over/frozen-formats";
import type { PartEdits } from "../files/hand-over/part-edits";
import { walkSheet } from "../files/sheet-walk";
import type { WorkbookPart } from "../files/workbook-part";
import type { NativeCell } from "./native-copy";

/** The formats of the cells that become values: their own, with a fill that marks them. */
export async function frozenLooks(parts: PartEdits, workbook: WorkbookPart, cells: readonly NativeCell[]): Promise<(sheet: string, address: string) => { readonly style?: number }> {
  const styles = workbook.relationships.find(({ kind }) => kind === "styles")?.part;
  const frozen = new Set(cells.filter(({ formula }) => formula === null).map(({ sheet, address }) => keyOf(sheet, address)));
  if (styles === undefined || frozen.size === 0) return () => ({});
  const styleOf = new Map<string, number>();
  for (const { name, part } of workbook.sheets) {
    walkSheet(await parts.text(part), part, {
      cell({ row, column, style }) {
        const key = keyOf(name, cellAddress(row, column));
        if (frozen.has(key)) styleOf.set(key, style);
      },
    });
  }
  const marked = withFrozenFormats(await parts.text(styles), styles, styleOf.values());
  parts.set(styles, marked.xml);
  return (sheet, address) => {
    const style = styleOf.get(keyOf(sheet, address));
    return style === undefined ? {} : { style: marked.of(style) };
  };
}

const keyOf = (sheet: string, address: string): string => `${sheet}!${address}`;
