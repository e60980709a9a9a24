import { ICommandService, type Injector, type IRange } from "@univerjs/core";
import { InsertColMutation, InsertRowMutation, MoveColsMutation, MoveRowsMutation, RemoveColMutation, RemoveRowMutation } from "@univerjs/sheets";

interface LineParams {
  readonly subUnitId: string;
  readonly range?: IRange;
  readonly sourceRange?: IRange;
  readonly targetRange?: IRange;
}

const WAYS: Readonly<Record<string, { readonly what: "columns" | "rows"; readonly way: "in" | "moved" | "out" }>> = {
  [InsertRowMutation.id]: { what: "rows", way: "in" },
  [RemoveRowMutation.id]: { what: "rows", way: "out" },
  [InsertColMutation.id]: { what: "columns", way: "in" },
  [RemoveColMutation.id]: { what: "columns", way: "out" },
  [MoveRowsMutation.id]: { what: "rows", way: "moved" },
  [MoveColsMutation.id]: { what: "columns", way: "moved" },
};

/** Knows in which sheets rows or columns were put in, taken out or moved since the workbook was opened. What was taken back counts for nothing. */
export class ShiftedSheets {
  /** What was done to each sheet, as texts, the latest last. */
  private readonly done = new Map<string, string[]>();

  constructor(injector: Injector) {
    injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
      const known = WAYS[id];
      if (!known || !params) return;
      const { range, sourceRange, subUnitId, targetRange } = params as LineParams;
      const place = (one: IRange | undefined) => (one ? (known.what === "rows" ? `${one.startRow}-${one.endRow}` : `${one.startColumn}-${one.endColumn}`) : "");
      const where = `${known.what} ${place(range)} ${place(sourceRange)} ${place(targetRange)}`;
      const list = this.done.get(subUnitId) ?? [];
      const opposite = { in: "out", out: "in", moved: "" }[known.way];
      if (list[list.length - 1] === `${opposite} ${where}`) list.pop();
      else list.push(`${known.way} ${where}`);
      this.done.set(subUnitId, list);
    });
  }

  /** Another workbook is opened. @param shifted ids of the sheets in which it happened before it was laid by */
  begin(shifted: readonly string[] = []): void {
    this.done.clear();
    for (const id of shifted) this.done.set(id, ["before"]);
  }

  ids(): string[] {
    return [...this.done].flatMap(([id, list]) => (list.length > 0 ? [id] : []));
  }
}
