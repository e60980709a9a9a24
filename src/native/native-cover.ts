import type { CoverLine } from "../files/hand-over/cover-part";
import { assumedLines, BLANK_LINE, cautionLines, type CopyFacts, doubtLines, heading, quiet, someOf, text, titleLines } from "../files/hand-over/cover-lines";
import { native } from "../words/native";
import { asRanges } from "./as-ranges";
import type { FrozenCell, NativeCell } from "./native-copy";
import type { Others } from "./other-formulas";

const words = native.cover;

/** The cover of a copy that recalculates: which sheets came with it, what follows the entries, what does not and why, what is uncertain, what was assumed. */
export function nativeCover(about: CopyFacts & Others, cells: readonly NativeCell[], frozen: readonly FrozenCell[], { sheets, sources }: { readonly sheets: readonly string[]; readonly sources: string }): readonly CoverLine[] {
  const bySheet = new Map<string, string[]>();
  for (const { sheet, address, formula } of cells) {
    if (formula === null) continue;
    const known = bySheet.get(sheet);
    if (known) known.push(address);
    else bySheet.set(sheet, [address]);
  }
  const frozenBySheet = new Map<string, Map<string, string[]>>();
  for (const { sheet, address, why } of frozen) {
    const reasons = frozenBySheet.get(sheet) ?? new Map<string, string[]>();
    frozenBySheet.set(sheet, reasons);
    reasons.set(why, [...(reasons.get(why) ?? []), address]);
  }
  return [
    ...titleLines(words.title, about, words),
    text(words.sheets, "", words.sheetsText(sheets.join(", "), sources)),
    text(words.checked, "", words.checkedText),
    BLANK_LINE,
    heading(words.translatedTitle),
    heading(...words.translatedHeadings),
    ...[...bySheet].map(([sheet, addresses]) => text(sheet, addresses.length, someOf(asRanges(addresses)))),
    BLANK_LINE,
    heading(words.frozenTitle),
    ...(frozenBySheet.size === 0 ? [quiet("", "", words.frozenNone)] : [...frozenBySheet].flatMap(([sheet, reasons]) => [...reasons].map(([why, addresses]) => text(sheet, addresses.length, `${someOf(asRanges(addresses))}. ${native.why[why as keyof typeof native.why]}`)))),
    ...(about.dropped.length === 0 ? [] : [BLANK_LINE, heading(words.droppedTitle), heading(...words.droppedHeadings), ...about.dropped.map(({ what, where, formula }) => text(what, where, formula))]),
    ...(about.ranges.length === 0 ? [] : [BLANK_LINE, heading(words.rangesTitle), ...about.ranges.map(({ sheet, cells: read }) => text(sheet, read.length, `${someOf(asRanges(read))}. ${words.rangesText}`))]),
    BLANK_LINE,
    ...doubtLines(),
    BLANK_LINE,
    ...assumedLines(),
    BLANK_LINE,
    ...cautionLines(),
  ];
}
