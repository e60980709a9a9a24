import { ICommandService, type IDisposable, type Injector, IUniverInstanceService, type IWorkbookData, LifecycleService, LifecycleStages, type Univer, UniverInstanceType, type Workbook } from "@univerjs/core";
import { IFunctionService } from "@univerjs/engine-formula";
import type { Book } from "../../files/book";
import type { BookExtras } from "../../files/book-extras";
import { withoutLostSheets } from "../../files/merge/follow/lost-sheets";
import type { PlacedBook } from "../../files/merge/placed-book";
import type { ProblemBook } from "../../functions/problem-book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";
import { calculateAll } from "../engine/calculation";
import type { FunctionSet } from "../engine/metadata";
import { registerFunctions } from "../engine/register";
import { sheetId, snapshotOf } from "../engine/snapshot";
import { registerTables } from "../engine/tables";
import { type BookState, stateOfBook } from "../excel/book-state";
import { stateOfFile } from "../excel/state-of-file";
import type { GridPort } from "../grid-port";
import { bookOfGrid, heldAsTexts } from "./book-of-grid";
import { CellChoices } from "./cell-choices";
import { ChartLayer } from "./chart-layer";
import { Edits } from "./edits";
import { GridNews } from "./grid-news";
import { type KeptBook, keptBook, tablesOfKept } from "./kept-book";
import { LongCalculation } from "./long-calculation";
import { OpenWorkbook } from "./open-workbook";
import { RowHeights } from "./row-heights";
import { SheetView } from "./sheet-view";
import { settled } from "./settled";
import { type Shifts, ShiftedSheets } from "./shifted-sheets";
import { startGrid } from "./univer-grid";
import { UniverPort } from "./univer-port";

/** The visible grid with the worksheet functions in it. */
export interface Grid {
  readonly port: GridPort;
  /** Shows a workbook in the place of the one before; resolves when it is calculated. Throws a Problem for one that cannot be shown right. */
  open(book: Book, title: string, extras?: BookExtras): Promise<void>;
  /** Whether a workbook stands there yet. */
  readonly isOpen: boolean;
  /** The workbook that stands there, to be laid by. */
  keep(): KeptBook;
  /** Shows a workbook that was laid by. Its undo history is gone. */
  restore(kept: KeptBook, title: string): Promise<void>;
  /** The workbook that stands there, as a file is made of it. */
  placedBook(title: string): PlacedBook;
  /** Where rows or columns were put in, taken out or moved since the workbook was opened. */
  shifts(): Shifts;
  /** Resolves when all that was typed is calculated. */
  settled(): Promise<void>;
  /** Whether a calculation was ended, and formulas show answers of before. */
  isStale(): boolean;
  /** Called when a calculation took too long and was ended. */
  onStopped(listener: () => void): void;
  /** Called when something worth keeping changes. Returns the function that ends the subscription. */
  onEdit(listener: () => void): () => void;
}

export function createGrid(container: HTMLElement, functionSet: FunctionSet, problems: ProblemBook): Grid {
  const { univer, injector } = startGrid(container);
  const grid = new UniverGrid(univer, injector, functionSet, problems);
  const open = new OpenWorkbook(injector);
  const view = new SheetView(open);
  new ChartLayer(container, open, grid.port, view);
  new CellChoices(container, injector, grid.port, view);
  return grid;
}

class UniverGrid implements Grid {
  readonly port: UniverPort;
  private readonly rowHeights: RowHeights;
  private readonly edits: Edits;
  private readonly shiftedSheets: ShiftedSheets;
  private readonly long: LongCalculation;
  private stopped: () => void = () => undefined;
  private registered: IDisposable | undefined;
  private opened = 0;

  constructor(private readonly univer: Univer, private readonly injector: Injector, private readonly functionSet: FunctionSet, private readonly problems: ProblemBook) {
    const news = new GridNews(injector);
    this.rowHeights = new RowHeights(injector);
    this.edits = new Edits(injector);
    this.shiftedSheets = new ShiftedSheets(injector);
    this.long = new LongCalculation(injector.get(ICommandService), () => this.stopped());
    this.port = new UniverPort(injector, news);
    news.onMove(() => {
      const named = this.isOpen && this.port.names.list().length > 0;
      // The engine remembers how it read a formula, with the cells that its names stood for then.
      if (named) injector.get(IFunctionService).deleteFormulaAstCacheKey("");
      // Problems are kept by address, so when cells move all are found again.
      if (named || problems.origins().length > 0) void calculateAll(injector);
    });
  }

  async open(book: Book, title: string, extras?: BookExtras): Promise<void> {
    if (book.date1904) throw new Problem("value", host.datesFrom1904);
    const state = extras ? stateOfFile(book, extras, sheetId) : stateOfBook(book, sheetId);
    await this.show(snapshotOf(book, this.nextId(), title), state, (unitId) => registerTables(this.injector, unitId, book), extras && sheetId(extras.active));
  }

  async restore(kept: KeptBook, title: string): Promise<void> {
    const { book, sheetId: idOf } = tablesOfKept(kept);
    await this.show({ ...kept.snapshot, id: this.nextId(), name: title }, kept.state, (unitId) => registerTables(this.injector, unitId, book, idOf), kept.front, kept);
  }

  get isOpen(): boolean {
    return Boolean(this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET));
  }

  keep(): KeptBook {
    return keptBook(new OpenWorkbook(this.injector), this.port.state.current(), this.shifts());
  }

  placedBook(title: string): PlacedBook {
    const open = new OpenWorkbook(this.injector);
    const { book, hasChanged } = withoutLostSheets(bookOfGrid(open, this.port.state.current(), this.port.names.list(), title));
    return { ids: open.workbook.getSheets().map((sheet) => sheet.getSheetId()), book, asTexts: heldAsTexts(open, book), ...(this.long.wasStopped || hasChanged ? { isStale: true } : {}) };
  }

  shifts(): Shifts {
    return this.shiftedSheets.shifts();
  }

  settled(): Promise<void> {
    return settled(this.injector, this.long);
  }

  isStale(): boolean {
    return this.long.wasStopped;
  }

  onStopped(listener: () => void): void {
    this.stopped = listener;
  }

  onEdit(listener: () => void): () => void {
    return this.edits.onEdit(listener);
  }

  private nextId(): string {
    this.opened += 1;
    return `book${this.opened}`;
  }

  /** @param front the id of the sheet that comes to the front, the first one where it is left out */
  private show(snapshot: IWorkbookData, state: BookState, tellTables: (unitId: string) => void, front?: string, shifts: Partial<Shifts> = {}): Promise<void> {
    return this.edits.without(async () => {
      const before = this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
      this.rowHeights.cancelAll();
      if (before) this.injector.get(IUniverInstanceService).disposeUnit(before.getUnitId());
      this.problems.clear();
      this.long.forget();
      const workbook = this.univer.createUnit<IWorkbookData, Workbook>(UniverInstanceType.UNIVER_SHEET, snapshot);
      // The first workbook starts the plugins whose services the functions register with.
      this.registered ??= registerFunctions(this.injector, this.functionSet, this.problems);
      tellTables(snapshot.id);
      this.port.begin(snapshot.id, state);
      this.shiftedSheets.begin(shifts);
      // The part that starts calculations comes up with the first picture of the grid.
      await this.injector.get(LifecycleService).onStage(LifecycleStages.Rendered);
      const sheet = front === undefined ? null : workbook.getSheetBySheetId(front);
      // With a cell in hand, or nothing could be typed there.
      if (sheet && !sheet.isSheetHidden()) this.port.select(sheet.getName(), "A1");
      await this.long.orStopped(calculateAll(this.injector));
    });
  }
}
