import { CONSTANTS } from "../../science/constants/all";
import { whence } from "../../science/constants/whence";
import { handOver, VERSION } from "../../words/hand-over";
import type { CoverLine } from "./cover-part";
import type { Cover, FrozenCells } from "./frozen-copy";

const words = handOver.cover;
const SHOWN_CELLS = 12;
export const BLANK_LINE: CoverLine = { look: "text", cells: [""] };
export const heading = (...cells: string[]): CoverLine => ({ look: "heading", cells });
export const text = (...cells: (string | number)[]): CoverLine => ({ look: "text", cells });
export const quiet = (...cells: string[]): CoverLine => ({ look: "quiet", cells });

/** Of what the copy is, and when and by which version it was made. `means`: what somebody who gets it has to know. */
export const titleLines = (title: string, { title: from, day }: CopyFacts, { whatText, meansText }: { readonly whatText: string; readonly meansText: string }): readonly CoverLine[] => [
  { look: "title", cells: [title] },
  ...(from === "" ? [] : [text(words.from, from)]),
  text(words.made, day),
  text(words.by, words.version(VERSION)),
  text(words.what, "", whatText),
  text(words.means, "", meansText),
];

/** `title`: of the original, "" for one without a name; `day`: "2026-01-31". */
export interface CopyFacts {
  readonly title: string;
  readonly day: string;
}

export const doubtLines = (): readonly CoverLine[] => [heading(words.doubtTitle), ...words.doubts.map(([what, why]) => text(what, "", why))];

export const assumedLines = (): readonly CoverLine[] => [
  heading(words.assumedTitle),
  heading(...words.assumedHeadings),
  // The weights of atoms are no assumption.
  ...CONSTANTS.filter(({ name }) => !name.startsWith("Atomic weight")).map(({ name, value, low, high, unit, mark, source }) => text(name, words.value(String(value), String(low), String(high), unit), whence(source, [mark]) || mark)),
];

export const cautionLines = (): readonly CoverLine[] => [heading(words.cautionsTitle), ...words.cautions.map((caution) => quiet("", "", caution))];

/** The cover of a copy whose formulas were frozen: what was done, what is uncertain, what was assumed with its source. */
export const coverOf = (title: string, day: string): Cover => ({
  name: words.name,
  lines: (frozen, names) => [
    ...titleLines(words.title, { title, day }, words),
    BLANK_LINE,
    heading(words.frozenTitle),
    heading(...words.frozenHeadings),
    ...frozen.map(frozenLine),
    ...frozen.filter(({ blank }) => blank.length > 0).map(({ sheet, blank }) => text(sheet, "", words.blank(someOf(blank)))),
    ...(names.length > 0 ? [text("", "", words.names(names.join(", ")))] : []),
    BLANK_LINE,
    ...doubtLines(),
    BLANK_LINE,
    ...assumedLines(),
    BLANK_LINE,
    ...cautionLines(),
  ],
});

const frozenLine = ({ sheet, cells }: FrozenCells): CoverLine => text(sheet, cells.length, someOf(cells));

/** The first dozen, and how many more there are. */
export const someOf = (cells: readonly string[]): string => [...cells.slice(0, SHOWN_CELLS), ...(cells.length > SHOWN_CELLS ? [words.more(cells.length - SHOWN_CELLS)] : [])].join(", ");
