import type { WatchedPage } from "./harness";

/** Batches of the Excel API in the page's own world, against the real grid, and what a test has to see of the grid. */
export interface ExcelPage {
  /** Opens a workbook with the sheets "Log" (days in A2:A3, nitrate in B2:B3, headings above) and "Other", which is empty. */
  openLog(): Promise<void>;
  /** The batch is sent as text: it may use its context only, and gives back what JSON can hold. */
  inPage<T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T>;
  /** Waits until the grid is quiet: every calculation is done. */
  settled(): Promise<void>;
  /** As a user does it, with the keyboard. */
  undo(times?: number): Promise<void>;
  /** The colours of cells of the sheet "Log" as they stand on the screen, in a corner without text; "none" where nothing is drawn. */
  fills(addresses: string[]): Promise<string[]>;
}

const MAIN_CANVAS = "#grid canvas[id^=univer-sheet-main-canvas]";

export function excelPage({ page }: WatchedPage): ExcelPage {
  return {
    openLog: () =>
      page.evaluate(() => {
        const rows: [string, string | number][] = [["A1", "Day"], ["B1", "Nitrate"], ["A2", 46000], ["B2", 4.25], ["A3", 46007], ["B3", 3.5]];
        const cells = new Map(rows.map(([address, value]) => [address, { value }]));
        return window.algalLedger.open({ sheets: [{ name: "Log", cells }, { name: "Other", cells: new Map() }], names: [], date1904: false }, "");
      }),

    inPage: <T>(batch: (context: Excel.RequestContext) => Promise<T>) => page.evaluate(`Excel.run(${batch.toString()})`) as Promise<T>,

    settled: () =>
      page.evaluate(
        () =>
          new Promise<void>((resolve) => {
            const quiet = () => {
              stop();
              resolve();
            };
            let timer = setTimeout(quiet, 600);
            const stop = window.algalLedger.port.onChange(() => {
              clearTimeout(timer);
              timer = setTimeout(quiet, 600);
            });
          }).then(() => window.algalLedger.settled()),
      ),

    async undo(times = 1) {
      for (let i = 0; i < times; i += 1) {
        await page.locator(MAIN_CANVAS).first().click({ position: { x: 300, y: 200 } });
        await page.keyboard.press("Control+z");
        await page.waitForTimeout(150);
      }
    },

    fills: (addresses) =>
      page.evaluate(
        ([cells, selector]) => {
          const canvas = document.querySelector<HTMLCanvasElement>(selector);
          const scale = (canvas?.width ?? 0) / (canvas?.getBoundingClientRect().width ?? 1);
          const widths = window.algalLedger.port.formats.columnWidths("Log", "A1:D1");
          return cells.map((address) => {
            const column = address.charCodeAt(0) - 65;
            // The heads of rows are 46 pixels wide, those of columns 20 high, rows 24.
            const x = 46 + widths.slice(0, column).reduce((sum, width) => sum + width, 0) + 4;
            const y = 20 + (Number(address.slice(1)) - 1) * 24 + 3;
            const [r = 0, g = 0, b = 0, opaque = 0] = canvas?.getContext("2d")?.getImageData(Math.round(x * scale), Math.round(y * scale), 1, 1).data ?? [];
            return opaque === 0 ? "none" : `#${[r, g, b].map((part) => part.toString(16).padStart(2, "0")).join("")}`.toUpperCase();
          });
        },
        [addresses, MAIN_CANVAS] as const,
      ),
  };
}
