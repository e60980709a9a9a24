/** One error of a worksheet function: where it shows, whose it is, and the sentence that the cell cannot show. */
export interface CellProblem {
  /** The cell that shows the error, with its sheet: "Log!B7". In a spilled answer this is the element's own cell. */
  address: string;
  /** As it is written in a formula: "ALGAL.LIGHT_DAILY". */
  functionName: string;
  sentence: string;
}

type Listener = () => void;

/**
 * The list of problems that the pane shows, kept by the cell that holds the formula (its origin, "Log!B2"). Excel and the local
 * host both write to it, because error sentences show in a cell only sometimes or not at all.
 */
export class ProblemBook {
  private readonly byOrigin = new Map<string, readonly CellProblem[]>();
  private readonly listeners = new Set<Listener>();
  private batchDepth = 0;
  private changedInBatch = false;

  /** Puts these problems in the place of all that this formula cell had; an empty list clears it. */
  replace(origin: string, problems: readonly CellProblem[]): void {
    if (problems.length === 0) {
      if (this.byOrigin.delete(origin)) this.changed();
      return;
    }
    if (sameProblems(this.byOrigin.get(origin) ?? [], problems)) return;
    this.byOrigin.set(origin, problems);
    this.changed();
  }

  /** The same for one function of a formula that may call several; an empty list says that this function calculated well. */
  replaceFor(origin: string, functionName: string, problems: readonly CellProblem[]): void {
    const others = (this.byOrigin.get(origin) ?? []).filter((problem) => problem.functionName !== functionName);
    this.replace(origin, [...others, ...problems]);
  }

  clear(): void {
    if (this.byOrigin.size === 0) return;
    this.byOrigin.clear();
    this.changed();
  }

  /** Cells whose formula has a problem now. */
  origins(): string[] {
    return [...this.byOrigin.keys()];
  }

  of(origin: string): readonly CellProblem[] {
    return this.byOrigin.get(origin) ?? [];
  }

  /** All problems, oldest formula first. */
  list(): CellProblem[] {
    return [...this.byOrigin.values()].flat();
  }

  /** Calls the listener once after any number of changes inside. */
  batch(change: () => void): void {
    this.batchDepth += 1;
    try {
      change();
    } finally {
      this.batchDepth -= 1;
      if (this.batchDepth === 0 && this.changedInBatch) {
        this.changedInBatch = false;
        this.tell();
      }
    }
  }

  /** Returns the function that ends the subscription. */
  subscribe(listener: Listener): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private changed(): void {
    if (this.batchDepth > 0) this.changedInBatch = true;
    else this.tell();
  }

  private tell(): void {
    for (const listener of [...this.listeners]) listener();
  }
}

function sameProblems(before: readonly CellProblem[], after: readonly CellProblem[]): boolean {
  return (
    before.length === after.length &&
    before.every((problem, i) => {
      const other = after[i];
      return other?.address === problem.address && other.functionName === problem.functionName && other.sentence === problem.sentence;
    })
  );
}
