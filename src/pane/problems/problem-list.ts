import type { CellProblem, ProblemBook } from "../../functions/problem-book";
import { stillWrong, watchCells } from "../../workbook/problems";

export interface ListedProblem extends CellProblem {
  /** The cell that holds the formula; it is another than `address` inside a spilled answer. */
  readonly origin: string;
}

export interface ShownProblems {
  readonly list: readonly ListedProblem[];
  /** false when the cells could not be read, so that the list may hold some that are solved. */
  readonly checked: boolean;
}

const NONE: ShownProblems = { list: [], checked: true };

/**
 * What the pane shows of the problem book: the problems whose cells still show an error. The book hears of every calculation but
 * not of a deleted formula, so the cells are read again after each change, at most once in `waitMs`.
 */
export class ProblemList {
  private current = NONE;
  private readonly listeners = new Set<() => void>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private reading = false;
  private changedMeanwhile = false;

  constructor(private readonly book: ProblemBook, private readonly waitMs = 150) {}

  /** Begins to follow the book and the cells; returns the function that ends it. */
  start(): () => void {
    const endBook = this.book.subscribe(this.schedule);
    // An Excel without these events still reports each calculation to the book, which is enough to keep the list.
    const watch = watchCells(this.schedule).catch(() => async () => {});
    this.schedule();
    return () => {
      clearTimeout(this.timer);
      endBook();
      void watch.then((endCells) => endCells()).catch(() => {});
    };
  }

  readonly shown = (): ShownProblems => this.current;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  private readonly schedule = (): void => {
    if (this.reading) this.changedMeanwhile = true;
    else this.timer ??= setTimeout(() => void this.read(), this.waitMs);
  };

  private async read(): Promise<void> {
    this.timer = undefined;
    this.reading = true;
    const listed = this.book.origins().flatMap((origin) => this.book.of(origin).map((problem) => ({ ...problem, origin })));
    try {
      this.show({ list: await stillWrong(listed), checked: true });
    } catch {
      this.show({ list: listed, checked: false });
    }
    this.reading = false;
    if (this.changedMeanwhile) {
      this.changedMeanwhile = false;
      this.schedule();
    }
  }

  private show(next: ShownProblems): void {
    if (next.list.length === 0 && this.current.list.length === 0 && next.checked === this.current.checked) return;
    this.current = next;
    for (const listener of [...this.listeners]) listener();
  }
}
