import { type IDisposable, type Injector, IUniverInstanceService, LifecycleService, LifecycleStages, type Univer, UniverInstanceType, type Workbook } from "@univerjs/core";
import type { Book } from "../../files/book";
import type { ProblemBook } from "../../functions/problem-book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";
import { calculateAll } from "../engine/calculation";
import type { FunctionSet } from "../engine/metadata";
import { registerFunctions } from "../engine/register";
import { sheetId, snapshotOf } from "../engine/snapshot";
import { registerTables } from "../engine/tables";
import { stateOfBook } from "../excel/book-state";
import type { GridPort } from "../grid-port";
import { GridNews } from "./grid-news";
import { RowHeights } from "./row-heights";
import { startGrid } from "./univer-grid";
import { UniverPort } from "./univer-port";

/** The visible grid with the worksheet functions in it. */
export interface Grid {
  readonly port: GridPort;
  /** Shows a workbook in the place of the one before; resolves when it is calculated. Throws a Problem for one that cannot be shown right. */
  open(book: Book, title: string): Promise<void>;
}

export function createGrid(container: HTMLElement, functionSet: FunctionSet, problems: ProblemBook): Grid {
  const { univer, injector } = startGrid(container);
  return new UniverGrid(univer, injector, functionSet, problems);
}

class UniverGrid implements Grid {
  readonly port: UniverPort;
  private readonly rowHeights: RowHeights;
  private registered: IDisposable | undefined;
  private opened = 0;

  constructor(private readonly univer: Univer, private readonly injector: Injector, private readonly functionSet: FunctionSet, private readonly problems: ProblemBook) {
    const news = new GridNews(injector);
    this.rowHeights = new RowHeights(injector);
    this.port = new UniverPort(injector, news);
    // Problems are kept by address, so when cells move all are found again.
    news.onMove(() => {
      if (problems.origins().length > 0) void calculateAll(injector);
    });
  }

  async open(book: Book, title: string): Promise<void> {
    if (book.date1904) throw new Problem("value", host.datesFrom1904);
    const before = this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
    this.rowHeights.cancelAll();
    if (before) this.injector.get(IUniverInstanceService).disposeUnit(before.getUnitId());
    this.problems.clear();
    this.opened += 1;
    const unitId = `book${this.opened}`;
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, snapshotOf(book, unitId, title));
    // The first workbook starts the plugins whose services the functions register with.
    this.registered ??= registerFunctions(this.injector, this.functionSet, this.problems);
    registerTables(this.injector, unitId, book);
    this.port.begin(unitId, stateOfBook(book, sheetId));
    // The part that starts calculations comes up with the first picture of the grid.
    await this.injector.get(LifecycleService).onStage(LifecycleStages.Rendered);
    await calculateAll(this.injector);
  }
}
