import { ILayoutService, ScrollToRangeOperation } from "@univerjs/preset-sheets-core";
import type { ChartState } from "../excel/book-state";
import { readAnyRange } from "../excel/range-geometry";
import type { GridPort } from "../grid-port";
import { ChartFigure } from "./chart-figure";
import { makeRoomForCharts } from "./chart-room";
import { chartCells, chartSource } from "./charts/chart-cells";
import { type ChartData, chartData } from "./charts/chart-data";
import type { OpenWorkbook } from "./open-workbook";
import type { Box, Pane, SheetSight, SheetView } from "./sheet-view";

interface Read {
  readonly data: ChartData;
  /** The cells that its values come from, in words. */
  readonly source: string;
  /** Both as one text: where it is the same, the picture is. */
  readonly known: string;
}

/** Draws the charts of the sheet in front over its cells. What the workbook's state says of a chart, and its cells, is all that it knows. */
export class ChartLayer {
  private readonly layer = document.createElement("div");
  private readonly panes = new Map<Pane["name"], HTMLElement>();
  private readonly figures = new Map<string, ChartFigure>();
  /** By chart; emptied when cells or charts changed. */
  private readonly read = new Map<string, Read>();
  private canvas: HTMLCanvasElement | undefined;

  /** @param container the grid's element */
  constructor(container: HTMLElement, private readonly open: OpenWorkbook, private readonly port: GridPort, private readonly view: SheetView) {
    this.layer.className = "sheet-layer";
    const readAgain = () => {
      this.read.clear();
      view.tell();
    };
    port.onChange(readAgain);
    port.state.onChange(readAgain);
    view.onChange(() => this.update());
    // The key that takes spreadsheets' users from the cells to what lies over them. AltGr is Ctrl+Alt too, but makes another sign.
    container.addEventListener("keydown", (event) => {
      const first = this.layer.querySelector<HTMLElement>("[data-chart][tabindex]");
      if (!first || event.key !== "5" || !event.ctrlKey || !event.altKey) return;
      event.preventDefault();
      event.stopPropagation();
      first.focus();
    }, { capture: true });
  }

  private update(): void {
    const sight = this.view.sight();
    const charts = sight ? this.port.state.current().charts.filter(({ sheetId }) => sheetId === sight.sheet.getSheetId()) : [];
    if (!sight || charts.length === 0) {
      this.keepOnly(new Set());
      this.layer.remove();
      return;
    }
    makeRoomForCharts(this.open, sight.sheet, charts);
    this.canvas = sight.canvas;
    if (this.layer.parentElement !== sight.canvas.parentElement) sight.canvas.after(this.layer);
    const standing = new Set<string>();
    for (const pane of sight.panes) {
      place(this.paneElement(pane.name), pane.box);
      const inPane = charts.filter((chart) => this.put(chart, pane, sight));
      for (const { id } of inPane) standing.add(keyOf(pane, id));
    }
    this.keepOnly(standing);
  }

  /** @returns whether a part of the chart belongs to the pane. A chart over the edge of frozen rows has a part in each of two. */
  private put(chart: ChartState, pane: Pane, { panes, zoom }: SheetSight): boolean {
    const range = readAnyRange(chart.position);
    if (!range || !pane.holds(range)) return false;
    const key = keyOf(pane, chart.id);
    const figure = this.figures.get(key) ?? this.makeFigure(key, chart);
    const parent = this.paneElement(pane.name);
    if (figure.element.parentElement !== parent) parent.append(figure.element);
    const box = pane.place(range);
    place(figure.element, box);
    figure.element.style.setProperty("--zoom", String(zoom));
    const { data, source, known } = this.readOnce(chart);
    figure.draw(data, source, known, Math.round(box.width / zoom), Math.round(box.height / zoom));
    figure.offer(panes.find(({ holds }) => holds(range)) === pane);
    return true;
  }

  private readOnce(chart: ChartState): Read {
    const before = this.read.get(chart.id);
    if (before) return before;
    const [data, source] = [chartData(chart, chartCells(this.port)), chartSource(this.port, chart)];
    const found = { data, source, known: JSON.stringify([data, source]) };
    this.read.set(chart.id, found);
    return found;
  }

  private paneElement(name: Pane["name"]): HTMLElement {
    const found = this.panes.get(name);
    if (found) return found;
    const made = document.createElement("div");
    made.className = "sheet-pane";
    this.layer.append(made);
    this.panes.set(name, made);
    return made;
  }

  private makeFigure(key: string, { id }: ChartState): ChartFigure {
    const made = new ChartFigure(id, key, () => this.open.injector.get(ILayoutService).focus());
    this.figures.set(key, made);
    // A press on a chart leaves the keyboard in the cells, and the wheel scrolls the cells under it.
    made.element.addEventListener("mousedown", (event) => event.preventDefault());
    made.element.addEventListener("wheel", (event) => {
      event.preventDefault();
      this.canvas?.dispatchEvent(new WheelEvent(event.type, event));
    });
    made.element.addEventListener("focus", () => this.bringIntoView(made.element, id));
    return made;
  }

  /** The page cannot scroll to a chart by itself: the sheet is a picture. */
  private bringIntoView(element: HTMLElement, id: string): void {
    const [box, seen] = [element.getBoundingClientRect(), element.parentElement?.getBoundingClientRect()];
    const range = readAnyRange(this.port.state.current().charts.find((chart) => chart.id === id)?.position ?? "");
    if (!seen || !range || (box.left >= seen.left && box.right <= seen.right && box.top >= seen.top && box.bottom <= seen.bottom)) return;
    this.open.tryCommand(ScrollToRangeOperation.id, { range, forceTop: true, forceLeft: true });
  }

  private keepOnly(keys: ReadonlySet<string>): void {
    for (const [key, { element }] of this.figures) {
      if (keys.has(key)) continue;
      // A chart that goes while the keyboard is in it gives it back.
      if (document.activeElement === element) this.open.injector.get(ILayoutService).focus();
      element.remove();
      this.figures.delete(key);
    }
  }
}

const keyOf = ({ name }: Pane, chart: string): string => `${name}-${chart}`;

function place(element: HTMLElement, { left, top, width, height }: Box): void {
  Object.assign(element.style, { left: `${left}px`, top: `${top}px`, width: `${width}px`, height: `${height}px` });
}
