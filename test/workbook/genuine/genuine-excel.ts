import { readFileSync } from "node:fs";
import type { GridPort } from "../../../src/host/grid-port";
import { ReplayHost } from "./replay-host";
import type { RequestExecutor } from "./wire";

/** The members of Excel's client library that stand under its object model, as far as they are used here. */
export interface ClientLibrary {
  readonly Excel: typeof Excel & Readonly<Record<string, { readonly prototype: { readonly _scalarPropertyNames?: readonly string[]; readonly _navigationPropertyNames?: readonly string[] } }>>;
  readonly OfficeExtension: typeof OfficeExtension & {
    readonly SessionBase: { _overrideSession: { _resolveRequestUrlAndHeaderInfo(): Promise<object>; _createRequestExecutorOrNull(): RequestExecutor } | null };
    readonly CommonUtility: { _doApiNotSupportedCheck: boolean; isSetSupported(name: string, version?: string): boolean };
    readonly _internalConfig: { appendTypeNameToObjectPathInfo: boolean };
    _testSetRichApiMessageReadyImpl(ready: () => Promise<void>): void;
    _testTriggerRichApiMessageEvent(message: { readonly entries: readonly object[] }): void;
  };
}

/** The older a user's Excel may be, the fewer requirement sets it has; without a limit all members stand. */
export interface Limits {
  /** "1.9": members of a newer set of ExcelApi are refused with ApiNotFound. */
  readonly newestExcelApi?: string;
}

/** The build with names in full of Excel for Windows. Its object model is that of all platforms. */
const FILE = "@microsoft/office-js/dist/excel-win32-16.01.debug.js";

let loaded: ClientLibrary | undefined;

/**
 * Excel's own object model out of the package from npm: the part of the file from the batching runtime to the end of the Excel
 * namespace. What stands before and after it talks to the window of a real Office.
 */
export function clientLibrary(): ClientLibrary {
  loaded ??= load();
  return loaded;
}

function load(): ClientLibrary {
  const source = readFileSync(require.resolve(FILE), "utf8");
  const runtime = source.indexOf("var OfficeExtension;");
  const start = source.lastIndexOf("var __extends", runtime);
  const end = source.indexOf("var _EndExcel", runtime);
  if (start < 0 || end < 0) throw new Error(`${FILE} is not laid out as it was.`);
  // A function of this realm: the library tells plain objects by their prototype, which is another in a context of its own.
  const make = new Function(`${source.slice(start, end)}\nreturn { Excel, OfficeExtension };\n//# sourceURL=excel.debug.js`) as () => ClientLibrary;
  const library = make();
  library.OfficeExtension._internalConfig.appendTypeNameToObjectPathInfo = true;
  library.OfficeExtension._testSetRichApiMessageReadyImpl(async () => undefined);
  return library;
}

/**
 * Puts the genuine `Excel` and `OfficeExtension` on the global object, with the stand-in as the host behind them: what the library
 * sends at sync is replayed on the grid. Takes the place of `installExcel`.
 * @returns the function that puts back what stood there before
 */
export function installGenuineExcel(port: GridPort, limits: Limits = {}): (() => void) & { readonly host: ReplayHost } {
  const library = clientLibrary();
  const { CommonUtility, SessionBase } = library.OfficeExtension;
  const host = new ReplayHost(port, library);
  const takenBack = [
    put(SessionBase, { _overrideSession: { _resolveRequestUrlAndHeaderInfo: async () => ({ url: "", headers: {} }), _createRequestExecutorOrNull: () => host.executor() } }),
    put(CommonUtility, { _doApiNotSupportedCheck: limits.newestExcelApi !== undefined, isSetSupported: (name: string, version = "1.1") => isSupported(limits, name, version) }),
    put(globalThis, { Excel: library.Excel, OfficeExtension: library.OfficeExtension }),
  ];
  return Object.assign(() => takenBack.forEach((takeBack) => takeBack()), { host });
}

function isSupported({ newestExcelApi }: Limits, name: string, version: string): boolean {
  if (newestExcelApi === undefined || !name.startsWith("ExcelApi")) return true;
  const [wanted, newest] = [version, newestExcelApi].map((one) => Number(one.split(".")[1]));
  // ExcelApiOnline and ExcelApiDesktop are sets of one platform.
  return name === "ExcelApi" && (wanted ?? Infinity) <= (newest ?? 0);
}

/** @returns what puts back the members that stood there before */
function put(place: object, members: Readonly<Record<string, unknown>>): () => void {
  const before = Object.keys(members).map((name) => [name, Object.getOwnPropertyDescriptor(place, name)] as const);
  Object.assign(place, members);
  return () => {
    for (const [name, descriptor] of before) {
      if (descriptor) Object.defineProperty(place, name, descriptor);
      else Reflect.deleteProperty(place, name);
    }
  };
}
