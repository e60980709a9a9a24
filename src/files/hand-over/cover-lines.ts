import { CONSTANTS } from "../../science/constants/all";
import { whence } from "../../science/constants/whence";
import { handOver, VERSION } from "../../words/hand-over";
import type { CoverLine } from "./cover-part";
import type { Cover, FrozenCells } from "./frozen-copy";

const words = handOver.cover;
const SHOWN_CELLS = 12;
const BLANK: CoverLine = { look: "text", cells: [""] };
const heading = (...cells: string[]): CoverLine => ({ look: "heading", cells });
const text = (...cells: (string | number)[]): CoverLine => ({ look: "text", cells });
const quiet = (...cells: string[]): CoverLine => ({ look: "quiet", cells });

/**
 * The cover of a copy whose formulas were frozen: what was done, what is uncertain, what was assumed with its source.
 * @param title of the original, "" for one without a name
 * @param day "2026-01-31"
 */
export const coverOf = (title: string, day: string): Cover => ({
  name: words.name,
  lines: (frozen, names) => [
    { look: "title", cells: [words.title] },
    ...(title === "" ? [] : [text(words.from, title)]),
    text(words.made, day),
    text(words.by, words.version(VERSION)),
    text(words.what, "", words.whatText),
    text(words.means, "", words.meansText),
    BLANK,
    heading(words.frozenTitle),
    heading(...words.frozenHeadings),
    ...frozen.map(frozenLine),
    ...frozen.filter(({ blank }) => blank.length > 0).map(({ sheet, blank }) => text(sheet, "", words.blank(someOf(blank)))),
    ...(names.length > 0 ? [text("", "", words.names(names.join(", ")))] : []),
    BLANK,
    heading(words.doubtTitle),
    ...words.doubts.map(([what, why]) => text(what, "", why)),
    BLANK,
    heading(words.assumedTitle),
    heading(...words.assumedHeadings),
    // The weights of atoms are no assumption.
    ...CONSTANTS.filter(({ name }) => !name.startsWith("Atomic weight")).map(({ name, value, low, high, unit, mark, source }) => text(name, words.value(String(value), String(low), String(high), unit), whence(source, [mark]) || mark)),
    BLANK,
    heading(words.cautionsTitle),
    ...words.cautions.map((caution) => quiet("", "", caution)),
  ],
});

const frozenLine = ({ sheet, cells }: FrozenCells): CoverLine => text(sheet, cells.length, someOf(cells));

const someOf = (cells: readonly string[]): string => [...cells.slice(0, SHOWN_CELLS), ...(cells.length > SHOWN_CELLS ? [words.more(cells.length - SHOWN_CELLS)] : [])].join(", ");
