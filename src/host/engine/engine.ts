import { type IDisposable, type Injector, isNodeEnv, IUniverInstanceService, LifecycleService, LifecycleStages, LocaleType, LogLevel, Univer, UniverInstanceType, type Workbook } from "@univerjs/core";
import { ERROR_TYPE_SET, type ErrorType, FormulaDataModel, UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import { CalculationMode, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import type { Book } from "../../files/book";
import { joinAddress } from "../../functions/cell-address";
import { CellError } from "../../functions/cell-error";
import { ProblemBook } from "../../functions/problem-book";
import { host } from "../../words/host";
import { cellAddress, rangeAddress, readRange } from "./address";
import { calculateAtOnce } from "./calculate-at-once";
import { refuseCalendarFrom1904 } from "./date-system";
import type { FunctionSet } from "./metadata";
import { registerFunctions } from "./register";
import { withNamesForEngine } from "./sheet-names";
import { type RawValue, SheetReader } from "./sheet-reader";
import { snapshotOf } from "./snapshot";
import { withoutTableReferences } from "./table-references";
import { registerTables } from "./tables";

/** What a cell shows. */
export type CellValue = number | string | boolean | CellError;

export interface CalculatedSheet {
  name: string;
  /** Every cell that shows something, by A1 address: typed, calculated and spilled. */
  values: Map<string, CellValue>;
  /** The range of each answer that spilled, by the address of its formula: "B2" -> "B2:D9". */
  spills: Map<string, string>;
}

/** The calculation engine without a screen. */
export interface Engine {
  readonly problems: ProblemBook;
  /** Takes a workbook in the place of the one before; nothing is calculated yet. Throws a Problem for one that cannot be calculated right. */
  open(book: Book): void;
  /** Calculates every formula of the open workbook, native and ours; gives the values of all cells, or of the formulas and what they spill alone. */
  calculate(shown?: "all" | "formulas"): Promise<CalculatedSheet[]>;
  /** Calculates one formula ("=ALGAL.X(1,2)") on an empty sheet named "Formula", in the place of the open workbook; gives its answer as rows of values. */
  formula(text: string): Promise<CellValue[][]>;
  dispose(): void;
}

export interface EngineOptions extends FunctionSet {
  problems?: ProblemBook;
}

/** Room for the longest answer of a formula that stands alone. */
const SCRATCH_CORNER = "IV200000";

export function createEngine({ problems = new ProblemBook(), ...functionSet }: EngineOptions): Engine {
  const univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: {} }, logLevel: LogLevel.SILENT });
  univer.registerPlugin(UniverFormulaEnginePlugin);
  univer.registerPlugin(UniverSheetsPlugin);
  univer.registerPlugin(UniverSheetsFormulaPlugin, { initialFormulaComputing: CalculationMode.NO_CALCULATION });
  const injector = univer.__getInjector();
  return new HeadlessEngine(univer, injector, problems, functionSet);
}

/** In a browser the calculation waits for a screen to be drawn; this engine has none. */
function beginInBrowser(injector: Injector): void {
  const lifecycle = injector.get(LifecycleService);
  if (isNodeEnv()) return;
  for (const stage of [LifecycleStages.Rendered, LifecycleStages.Steady]) if (lifecycle.stage < stage) lifecycle.stage = stage;
}

class HeadlessEngine implements Engine {
  private readonly registered: IDisposable;
  private workbook: Workbook | undefined;
  private opened = 0;
  private nameInFile = (name: string): string => name;

  constructor(private readonly univer: Univer, private readonly injector: Injector, readonly problems: ProblemBook, functionSet: FunctionSet) {
    // A first workbook starts the plugins, whose services the functions register with.
    this.open({ sheets: [{ name: "Sheet1", cells: new Map() }], names: [], date1904: false });
    beginInBrowser(injector);
    this.registered = registerFunctions(injector, functionSet, problems);
  }

  open(given: Book): void {
    refuseCalendarFrom1904(given);
    const { book, nameInFile } = withNamesForEngine(withoutTableReferences(given));
    this.nameInFile = nameInFile;
    if (this.workbook) this.injector.get(IUniverInstanceService).disposeUnit(this.workbook.getUnitId());
    this.problems.clear();
    this.opened += 1;
    this.workbook = this.univer.createUnit<ReturnType<typeof snapshotOf>, Workbook>(UniverInstanceType.UNIVER_SHEET, snapshotOf(book, `book${this.opened}`));
    registerTables(this.injector, this.workbook.getUnitId(), book);
  }

  async calculate(shown: "all" | "formulas" = "all"): Promise<CalculatedSheet[]> {
    const workbook = this.workbook;
    if (!workbook) throw new Error("No workbook is open.");
    await calculateAtOnce(this.injector);
    const reader = new SheetReader(workbook, this.injector.get(FormulaDataModel));
    const sentences = new Map(this.problems.list().map((problem) => [problem.address, problem.sentence]));
    return workbook.getSheets().map((sheet) => {
      const values = new Map<string, CellValue>();
      const spills = new Map<string, string>();
      const take = (row: number, column: number, value: RawValue): void => {
        const address = cellAddress(row, column);
        values.set(address, cellValue(value, sentences.get(joinAddress(sheet.getName(), address))));
        const spill = reader.spill(sheet, row, column);
        if (spill) spills.set(address, rangeAddress(spill));
      };
      reader.forEachValue(sheet, take, shown);
      return { name: this.nameInFile(sheet.getName()), values, spills };
    });
  }

  async formula(text: string): Promise<CellValue[][]> {
    const formula = text.trim().replace(/^=/, "");
    this.open({ sheets: [{ name: "Formula", cells: new Map([["A1", { value: null, formula }], [SCRATCH_CORNER, { value: null }]]) }], names: [], date1904: false });
    const [sheet] = await this.calculate();
    if (!sheet) return [];
    const { endRow, endColumn } = readRange(sheet.spills.get("A1") ?? "A1");
    return Array.from({ length: endRow + 1 }, (_, r) => Array.from({ length: endColumn + 1 }, (_unused, c) => sheet.values.get(cellAddress(r, c)) ?? ""));
  }

  dispose(): void {
    this.registered.dispose();
    this.univer.dispose();
  }
}

/** The engine keeps an error value as its code in text, and turns a text that is such a code into the error, as we do here. */
function cellValue(value: RawValue, sentence: string | undefined): CellValue {
  // Some of the engine's own functions give the largest of no numbers so.
  if (typeof value === "number" && !Number.isFinite(value)) return new CellError("#NUM!", sentence ?? host.cellShows("#NUM!"));
  if (typeof value !== "string" || !ERROR_TYPE_SET.has(value as ErrorType)) return value;
  return new CellError(value, sentence ?? host.cellShows(value));
}
