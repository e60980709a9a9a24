import { ICommandService, type Injector, type IRange } from "@univerjs/core";
import { InsertColMutation, InsertRowMutation, MoveColsMutation, MoveRowsMutation, RemoveColMutation, RemoveRowMutation } from "@univerjs/sheets";
import type { LineMove } from "../../files/merge/follow/line-move";

interface LineParams {
  readonly subUnitId: string;
  readonly range?: IRange;
  readonly sourceRange?: IRange;
  readonly targetRange?: IRange;
}

type Line = Omit<LineMove, "sheetId">;

const WAYS: Readonly<Record<string, Pick<Line, "along" | "way">>> = {
  [InsertRowMutation.id]: { along: "rows", way: "insert" },
  [RemoveRowMutation.id]: { along: "rows", way: "delete" },
  [InsertColMutation.id]: { along: "columns", way: "insert" },
  [RemoveColMutation.id]: { along: "columns", way: "delete" },
};
const TO_ANOTHER_PLACE: ReadonlySet<string> = new Set([MoveRowsMutation.id, MoveColsMutation.id]);

/** Where rows or columns were put in, taken out or moved since the workbook was opened. */
export interface Shifts {
  /** The latest last. */
  readonly moves: readonly LineMove[];
  /** Ids of the sheets in which some went to another place. */
  readonly shifted: readonly string[];
}

/** Knows what happened to the rows and columns of each sheet. What was taken back counts for nothing. */
export class ShiftedSheets {
  /** What was done to each sheet, the latest last; a text for what went to another place. */
  private readonly done = new Map<string, (Line | string)[]>();

  constructor(injector: Injector) {
    injector.get(ICommandService).onCommandExecuted(({ id, params }) => {
      if (!params) return;
      const known = WAYS[id];
      const { range, sourceRange, subUnitId, targetRange } = params as LineParams;
      if (known && range) {
        const [first, last] = known.along === "rows" ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
        this.note(subUnitId, { ...known, first, count: last - first + 1 });
      } else if (TO_ANOTHER_PLACE.has(id)) this.note(subUnitId, JSON.stringify([sourceRange, targetRange]));
    });
  }

  /** Another workbook is opened. @param before what happened to it before it was laid by */
  begin({ moves = [], shifted = [] }: Partial<Shifts> = {}): void {
    this.done.clear();
    for (const { sheetId, ...line } of moves) this.note(sheetId, line);
    for (const id of shifted) this.note(id, "before");
  }

  shifts(): Shifts {
    const all = [...this.done];
    return {
      moves: all.flatMap(([sheetId, list]) => list.flatMap((one) => (typeof one === "string" ? [] : [{ ...one, sheetId }]))),
      shifted: all.flatMap(([id, list]) => (list.some((one) => typeof one === "string") ? [id] : [])),
    };
  }

  private note(id: string, one: Line | string): void {
    const list = this.done.get(id) ?? [];
    const last = list[list.length - 1];
    const isTakenBack = typeof one !== "string" && typeof last === "object" && last.along === one.along && last.first === one.first && last.count === one.count && last.way !== one.way;
    // What is put in anew where some was taken out comes with what stood there.
    if (isTakenBack) list.pop();
    else list.push(one);
    this.done.set(id, list);
  }
}
