import { type IDisposable, type Injector, IUniverInstanceService, type Univer, UniverInstanceType, type Workbook } from "@univerjs/core";
import type { Book } from "../../files/book";
import type { ProblemBook } from "../../functions/problem-book";
import type { FunctionSet } from "../engine/metadata";
import { registerFunctions } from "../engine/register";
import { snapshotOf } from "../engine/snapshot";
import type { GridPort } from "../grid-port";
import { nextCalculation } from "./settled";
import { startGrid } from "./univer-grid";
import { UniverPort } from "./univer-port";

/** The visible grid with the worksheet functions in it. */
export interface Grid {
  readonly port: GridPort;
  /** Shows a workbook in the place of the one before; resolves when it is calculated. */
  open(book: Book, title: string): Promise<void>;
}

export function createGrid(container: HTMLElement, functionSet: FunctionSet, problems: ProblemBook): Grid {
  const { univer, injector } = startGrid(container);
  return new UniverGrid(univer, injector, functionSet, problems);
}

class UniverGrid implements Grid {
  readonly port: UniverPort;
  private registered: IDisposable | undefined;
  private opened = 0;

  constructor(private readonly univer: Univer, private readonly injector: Injector, private readonly functionSet: FunctionSet, private readonly problems: ProblemBook) {
    this.port = new UniverPort(injector);
  }

  async open(book: Book, title: string): Promise<void> {
    const before = this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
    if (before) this.injector.get(IUniverInstanceService).disposeUnit(before.getUnitId());
    this.problems.clear();
    this.opened += 1;
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, snapshotOf(book, `book${this.opened}`, title));
    // The first workbook starts the plugins that the functions register with; its calculation begins only after this turn.
    this.registered ??= registerFunctions(this.injector, this.functionSet, this.problems);
    await nextCalculation(this.injector);
  }
}
