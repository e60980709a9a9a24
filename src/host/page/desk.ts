import type { Book } from "../../files/book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";
import { stateOnSheets } from "../excel/book-state";
import type { HostFile } from "../excel/document";
import type { Grid } from "../grid/grid";
import { ask } from "./ask";
import { bookFile, mayLose } from "./book-file";
import { giveFile } from "./download";
import { Keeper, type Keeping } from "./keep";
import { type OpenedFile, readFile, titleOf, unshownKinds, unshownSentence } from "./open-file";
import { type Original, originalOf } from "./original";
import { fetchSample, type Sample } from "./samples";
import type { Shell } from "./shell";

const EMPTY: Book = { sheets: [{ name: host.emptySheet, cells: new Map() }], names: [], date1904: false };

/** The one workbook of the page: where it comes from, whether it was changed, and that no change is lost unasked. */
export class Desk {
  private title = "";
  private sample: Sample | null = null;
  private isChanged = false;
  /** The file that the workbook was opened from. */
  private original: Original | null = null;
  private busy = false;
  private readonly keeper: Keeper;

  constructor(private readonly grid: Grid, private readonly shell: Shell) {
    this.keeper = new Keeper(
      () => ({ title: this.title, changed: this.isChanged, book: grid.keep(), original: this.original }),
      (keeping) => this.showKeeping(keeping),
    );
    grid.onEdit(() => {
      this.isChanged = true;
      if (this.sample) shell.showSample(null);
      this.sample = null;
      this.keeper.changed();
    });
    grid.onStopped(() => shell.complain(host.calculationStopped));
    window.addEventListener("beforeunload", (event) => {
      if (this.isChanged && !this.keeper.isSafe) event.preventDefault();
    });
  }

  /** Shows the kept workbook, or the first sample. */
  start(): Promise<void> {
    return this.alone(() => this.closed(() => this.showFirst()));
  }

  private async showFirst(): Promise<void> {
    const kept = await this.keeper.start();
    if (kept && kept !== "unreadable") {
      try {
        await this.grid.restore(kept.book, kept.title);
        this.stands(kept.title, null, kept.changed, kept.original);
        return;
      } catch {
        this.keeper.disown();
      }
    }
    const [first] = host.samples;
    // The grid needs a workbook to stand on, even when the sample does not come.
    if (!first || !(await this.show(first))) await this.grid.open(EMPTY, "");
    if (kept) this.shell.complain(host.keptUnreadable);
  }

  /** For tests: a workbook in the place of the one before, unasked. */
  async take(book: Book, title: string): Promise<void> {
    await this.closed(async () => {
      await this.grid.open(book, title);
      await this.keeper.forget();
      this.stands(title, null, false);
    });
  }

  async openSample(sample: Sample): Promise<void> {
    await this.alone(async () => {
      if (await this.mayReplace()) await this.closed(async () => void (await this.show(sample)));
    });
    this.shell.showSample(this.sample);
  }

  async openFile(file: File): Promise<void> {
    await this.alone(async () => {
      this.shell.say(host.opening(file.name));
      try {
        const opened = await readFile(file);
        if (!(await this.mayReplace())) return;
        await this.closed(async () => this.stands(titleOf(file), null, false, await this.putUp(opened, titleOf(file))));
        // What the page says of a calculation that took too long is of more weight.
        if (!this.grid.isStale()) this.shell.note(unshownSentence(opened.unshown));
        // The keeper's own: it is there again after a reload, changed or not.
        await this.keeper.keep();
      } catch (error) {
        this.shell.complain(host.notOpened(file.name, sentenceOf(error)));
      } finally {
        this.shell.say("");
      }
    });
  }

  /** @returns whether the file was given to the browser */
  async download(): Promise<boolean> {
    try {
      await this.grid.settled();
      const { port } = this.grid;
      const { charts, validations } = stateOnSheets(port.state.current(), new Set(port.sheets.list().map(({ id }) => id)));
      const { book } = this.grid.placedBook(this.title);
      const file = await bookFile(this.grid, this.title, this.original);
      if (!(await mayLose(file))) return false;
      await giveFile(file.bytes, this.title);
      const written = book.sheets.reduce((sum, sheet) => sum + (sheet.charts?.length ?? 0) + (sheet.validations?.length ?? 0), 0);
      const left = charts.length + validations.length - written;
      this.shell.note([left > 0 ? host.leftOut(left) : "", file.asTexts.length > 0 ? host.heldAsTexts(file.asTexts) : ""].filter(Boolean).join(" "));
      return true;
    } catch (error) {
      this.shell.complain(host.notDownloaded(sentenceOf(error, host.unwritable)));
      return false;
    }
  }

  /** The workbook as the add-in's code may have it: as a file, with a way to save another. */
  hostFile(): HostFile {
    return {
      bytes: async () => {
        const { asTexts, bytes, lost } = await bookFile(this.grid, this.title, this.original);
        if (lost) this.shell.note(host.anew.lost(unshownKinds(lost)));
        else if (asTexts.length > 0) this.shell.note(host.heldAsTexts(asTexts));
        return bytes;
      },
      name: () => this.title,
      give: (file) => void giveFile(file, host.copyOf(this.title)),
    };
  }

  async startAfresh(): Promise<void> {
    await this.alone(async () => {
      const { forget, replace } = host;
      const text = this.keeper.holdsAnother ? forget.all : forget.text;
      const answer = await ask({ title: forget.title, text, answers: [{ answer: "download", label: replace.download }, { answer: "go", label: forget.goOn }, { answer: "stay", label: replace.stay }] });
      if (answer === "stay" || (answer === "download" && !(await this.download()))) return;
      const [first] = host.samples;
      await this.closed(async () => {
        await this.keeper.forgetAll();
        if (first && (await this.show(first))) return;
        await this.grid.open(EMPTY, "");
        this.stands("", null, false);
      });
    });
  }

  /** One after the other: a second click while something opens counts for nothing. */
  private async alone(act: () => Promise<void>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    try {
      await act();
    } finally {
      this.busy = false;
    }
  }

  /** While one workbook takes the place of another: what is typed meanwhile would belong to neither. */
  private async closed(act: () => Promise<void>): Promise<void> {
    this.shell.close(true);
    try {
      await act();
    } finally {
      this.shell.close(false);
    }
  }

  private async mayReplace(): Promise<boolean> {
    if (!this.isChanged) return true;
    const { download, goOn, stay, text, title } = host.replace;
    const answer = await ask({ title: title(this.title), text, answers: [{ answer: "download", label: download }, { answer: "go", label: goOn }, { answer: "stay", label: stay }] });
    return answer === "go" || (answer === "download" && (await this.download()));
  }

  private async show(sample: Sample): Promise<boolean> {
    this.shell.say(host.opening(sample.title));
    try {
      const original = await this.putUp(await fetchSample(sample), sample.title);
      await this.keeper.forget();
      this.stands(sample.title, sample, false, original);
      return true;
    } catch (error) {
      this.shell.say("");
      this.shell.complain(host.notOpened(sample.title, sentenceOf(error)));
      return false;
    }
  }

  /** When the grid cannot take the workbook in, the one before comes back. */
  private async putUp({ book, bytes, extras, unshown }: OpenedFile, title: string): Promise<Original> {
    const before = this.grid.isOpen ? this.grid.keep() : null;
    try {
      await this.grid.open(book, title, extras);
      return originalOf({ bytes, before: this.grid.placedBook(title) }, unshown);
    } catch (error) {
      if (before && !(error instanceof Problem)) await this.grid.restore(before, this.title);
      throw error;
    }
  }

  private stands(title: string, sample: Sample | null, changed: boolean, original: Original | null = null): void {
    this.title = title;
    this.original = original;
    this.sample = sample;
    this.isChanged = changed;
    this.shell.showOpen(title, sample);
    if (this.grid.isStale()) this.shell.complain(host.calculationStopped);
  }

  private showKeeping(keeping: Keeping): void {
    this.shell.offerAfresh(keeping.state !== "nothing" || this.keeper.holdsAnother);
    if (keeping.state === "kept") this.shell.showKept(host.kept(timeText(keeping.at)), false);
    else this.shell.showKept({ nothing: "", blocked: host.keptBlocked, elsewhere: host.keptElsewhere, impossible: host.notKept }[keeping.state], keeping.state !== "nothing");
  }
}

function sentenceOf(error: unknown, otherwise: string = host.unreadable): string {
  return error instanceof Problem ? error.message : otherwise;
}

/** "14:05", with the day before it when that is not today. */
function timeText(at: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  const time = `${two(at.getHours())}:${two(at.getMinutes())}`;
  if (at.toDateString() === new Date().toDateString()) return time;
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())} ${time}`;
}
