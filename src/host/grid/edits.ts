import { ICommandService, type Injector } from "@univerjs/core";

const SHEET = "sheet.mutation.";
const OWN = "algal-ledger.mutation.";
const NAMES: ReadonlySet<string> = new Set(["formula.mutation.set-defined-name", "formula.mutation.remove-defined-name"]);
/** What the grid does by itself while it draws. */
const BY_ITSELF: ReadonlySet<string> = new Set(["set-worksheet-row-auto-height", "empty", "mark-dirty-filter-change", "set-worksheet-permission-points", "data-validation-formula-mark-dirty"].map((name) => SHEET + name));

/** Tells when something of the open workbook that is worth keeping changes: typed, formatted, inserted, undone. Answers of formulas do not count. */
export class Edits {
  private readonly listeners = new Set<() => void>();
  private opening = false;

  constructor(injector: Injector) {
    injector.get(ICommandService).onCommandExecuted(({ id }, options) => {
      if (this.opening || options?.fromFormula || BY_ITSELF.has(id)) return;
      if (!id.startsWith(SHEET) && !id.startsWith(OWN) && !NAMES.has(id)) return;
      for (const listener of [...this.listeners]) listener();
    });
  }

  onEdit(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  /** What the grid does while it takes a workbook in is no edit. */
  async without<T>(open: () => Promise<T>): Promise<T> {
    this.opening = true;
    try {
      return await open();
    } finally {
      this.opening = false;
    }
  }
}
