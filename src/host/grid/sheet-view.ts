import { ICommandService, LifecycleService, LifecycleStages, type Worksheet } from "@univerjs/core";
import { type IRender, IRenderManagerService, SHEET_VIEWPORT_KEY, SheetScrollManagerService, SheetSkeletonManagerService } from "@univerjs/preset-sheets-core";
import type { CellRange } from "../engine/address";
import { intersection } from "../excel/range-geometry";
import type { OpenWorkbook } from "./open-workbook";

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A part of the sheet that scrolls by itself: all of it, or with frozen rows or columns one of up to four. */
export interface Pane {
  readonly name: "main" | "top" | "left" | "corner";
  /** The part of the view that shows it. */
  readonly box: Box;
  /** Where cells stand, measured from the corner of the box. Only cells of the pane show there. */
  place(range: CellRange): Box;
  /** Whether a part of the range belongs to the pane, in view or not. */
  holds(range: CellRange): boolean;
}

/** The sheet in front as it is seen now. */
export interface SheetSight {
  /** Above whose canvas things may be laid, in its own parent. */
  readonly canvas: HTMLCanvasElement;
  readonly sheet: Worksheet;
  readonly zoom: number;
  /** Those that scroll first. Sizes are pixels of the page. */
  readonly panes: readonly Pane[];
}

/** Above all cells that can be. */
const END = Number.MAX_SAFE_INTEGER;

/** Where the cells of the sheet in front stand on the screen, and when that changes. */
export class SheetView {
  private readonly listeners = new Set<() => void>();
  private followed: IRender | undefined;
  private following: { unsubscribe(): void }[] = [];
  private frame = 0;

  constructor(private readonly open: OpenWorkbook) {
    const { injector } = open;
    // Zoom, widths, heights, sheets, frozen rows, undo: every one of them is a command.
    injector.get(ICommandService).onCommandExecuted(() => this.tell());
    window.addEventListener("resize", () => this.tell());
  }

  /** Called before the next picture whenever cells may stand elsewhere or show something else. */
  onChange(listener: () => void): void {
    this.listeners.add(listener);
  }

  tell(): void {
    if (this.frame !== 0) return;
    this.frame = requestAnimationFrame(() => {
      this.frame = 0;
      this.follow();
      for (const listener of this.listeners) listener();
    });
  }

  /** null as long as no sheet is drawn. */
  sight(): SheetSight | null {
    const render = this.render();
    const canvas = render?.engine.getCanvasElement();
    const skeleton = render?.with(SheetSkeletonManagerService).getCurrentSkeleton();
    const main = render?.scene.getViewport(SHEET_VIEWPORT_KEY.VIEW_MAIN);
    if (!render || !canvas?.isConnected || !skeleton || !main) return null;
    const { scaleX: zoom } = render.scene.getAncestorScale();
    const sheet = skeleton.worksheet;
    const { rowHeaderWidth, columnHeaderHeight, rowHeightAccumulation, columnWidthAccumulation } = skeleton;
    const { startRow, startColumn, xSplit, ySplit } = sheet.getFreeze();
    const bar = main.getScrollBar();
    const rows = along(rowHeightAccumulation, columnHeaderHeight, startRow, ySplit, main.viewportScrollY, canvas.clientHeight - (bar?.hasHorizonThumb() ? bar.barSize : 0), zoom);
    const columns = along(columnWidthAccumulation, rowHeaderWidth, startColumn, xSplit, main.viewportScrollX, canvas.clientWidth - (bar?.hasVerticalThumb() ? bar.barSize : 0), zoom);
    const pane = (name: Pane["name"], down: Part | null, across: Part | null): Pane[] => (down && across ? [paneOf(name, down, across)] : []);
    return { canvas, sheet, zoom, panes: [...pane("main", rows.main, columns.main), ...pane("top", rows.frozen, columns.main), ...pane("left", rows.main, columns.frozen), ...pane("corner", rows.frozen, columns.frozen)] };
  }

  private render(): IRender | null {
    // The services of a picture come with the first one that is shown.
    if (this.open.injector.get(LifecycleService).stage < LifecycleStages.Rendered) return null;
    try {
      return this.open.injector.get(IRenderManagerService).getRenderById(this.open.unitId) ?? null;
    } catch {
      // Between two workbooks there is none.
      return null;
    }
  }

  /** Each workbook has a picture of its own, which says when it scrolls or gets another size. */
  private follow(): void {
    const render = this.render();
    if (!render || render === this.followed) return;
    for (const one of this.following) one.unsubscribe();
    this.followed = render;
    this.following = [
      render.with(SheetScrollManagerService).validViewportScrollInfo$.subscribe(() => this.tell()),
      render.with(SheetSkeletonManagerService).currentSkeleton$.subscribe(() => this.tell()),
      render.engine.clientRect$.subscribe(() => this.tell()),
    ];
  }
}

/** Rows or columns of one pane: the first and the last, where they begin and end in the view, and how far an index lies from there. */
interface Part {
  readonly first: number;
  readonly last: number;
  readonly start: number;
  readonly size: number;
  edge(index: number): number;
}

/**
 * @param sums of the heights, from the first row to each
 * @param heading pixels of the headings before them
 * @param next the first row that is not frozen; frozen are so many before it
 */
function along(sums: readonly number[], heading: number, next: number, frozen: number, scrolled: number, whole: number, zoom: number): { main: Part | null; frozen: Part | null } {
  const before = (index: number): number => sums[Math.min(index, sums.length) - 1] ?? 0;
  const first = frozen > 0 ? Math.max(0, next - frozen) : 0;
  const held = frozen > 0 ? before(next) - before(first) : 0;
  const part = (from: number, to: number, start: number, end: number, edge: (index: number) => number): Part | null =>
    end > start ? { first: from, last: to, start, size: end - start, edge: (index) => edge(index) * zoom - start } : null;
  const parting = (heading + held) * zoom;
  return {
    main: part(frozen > 0 ? next : 0, END, parting, whole, (index) => heading + before(index) - scrolled),
    frozen: frozen > 0 ? part(first, next - 1, heading * zoom, Math.min(parting, whole), (index) => heading + before(index) - before(first)) : null,
  };
}

function paneOf(name: Pane["name"], rows: Part, columns: Part): Pane {
  const all: CellRange = { startRow: rows.first, endRow: rows.last, startColumn: columns.first, endColumn: columns.last };
  return {
    name,
    box: { left: columns.start, top: rows.start, width: columns.size, height: rows.size },
    place: ({ startRow, endRow, startColumn, endColumn }) => {
      const [left, top] = [columns.edge(startColumn), rows.edge(startRow)];
      return { left, top, width: columns.edge(endColumn + 1) - left, height: rows.edge(endRow + 1) - top };
    },
    holds: (range) => intersection(all, range) !== null,
  };
}
