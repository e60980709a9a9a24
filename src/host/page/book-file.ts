import { writeBook } from "../../files/new-book";
import type { ReadWorkbook } from "../../files/read-workbook";
import { host } from "../../words/host";
import type { Grid } from "../grid/grid";
import { ask } from "./ask";
import { unshownKinds } from "./open-file";
import { type Original, unpacked } from "./original";

/** The workbook as a file. */
export interface BookFile {
  readonly bytes: Uint8Array;
  /** Of a file written anew, what of the original it does not hold; null for one that was made out of the original. */
  readonly lost: ReadWorkbook["unshown"] | null;
  /** Where formulas that no file can hold stand as texts. */
  readonly asTexts: readonly string[];
}

/** Makes the file out of the one that was opened, so that all that the page does not show stays in it; where that cannot be done without a guess it is written anew. */
export async function bookFile(grid: Grid, title: string, original: Original | null): Promise<BookFile> {
  const now = grid.placedBook(title);
  let asTexts = now.asTexts ?? [];
  if (!original) return { bytes: await writeBook(now.book), lost: null, asTexts };
  let lost = original.unshown;
  if (original.packed !== null) {
    const { before, bytes } = unpacked(original.packed);
    // Not before it is asked for: most of the time nothing is downloaded.
    const { mergeBook } = await import(/* webpackChunkName: "merge" */ "../../files/merge/merge-book");
    const { file, unshown } = await mergeBook({ original: bytes, before, now, moves: grid.shifts().moves, shifted: new Set(grid.shifts().shifted) });
    if (file) {
      // Those that came with the file stand in it as they did.
      asTexts = asTexts.filter((place) => before.asTexts?.includes(place) !== true);
      return { bytes: file, lost: null, asTexts };
    }
    lost = unshown;
  }
  return { bytes: await writeBook(now.book), lost, asTexts };
}

/** Asks whether a file that was written anew will do. @returns whether it will */
export async function mayLose({ lost }: BookFile): Promise<boolean> {
  if (!lost) return true;
  const { goOn, stay, text, title } = host.anew;
  return (await ask({ title, text: text(unshownKinds(lost)), answers: [{ answer: "go", label: goOn }, { answer: "stay", label: stay }] })) === "go";
}
