import { host } from "../../words/host";
import type { ChartData } from "./charts/chart-data";
import { type DrawnPoint, pointAfter, pointAt } from "./charts/drawn-point";
import { drawChart } from "./charts/picture";
import { shape, svgElement } from "./charts/shape";

/** Between a value's mark and the words that say it, and around the mark. */
const [GAP, RING] = [8, 3];

/** A chart's box over the cells: its picture, and the value that the pointer or the arrow keys are at. */
export class ChartFigure {
  readonly element = document.createElement("div");
  private readonly says = document.createElement("p");
  private points: readonly DrawnPoint[] = [];
  private svg: SVGElement | null = null;
  private width = 0;
  private at = -1;
  private drawn = "";

  /**
   * @param id of the chart
   * @param key of this box; no other on the page may have it
   * @param toCells gives the keyboard back to the cells
   */
  constructor(id: string, private readonly key: string, toCells: () => void) {
    this.element.className = "sheet-chart";
    this.element.dataset.chart = id;
    this.says.className = "chart-value";
    this.says.setAttribute("role", "status");
    this.element.addEventListener("pointermove", (event) => this.point(event));
    this.element.addEventListener("pointerdown", (event) => this.point(event));
    this.element.addEventListener("pointerleave", () => this.show(-1));
    this.element.addEventListener("blur", () => this.show(-1));
    this.element.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const to = pointAfter(event.key, this.points, this.at);
      if (to !== undefined) this.show(to);
      else if (event.key === "Escape") toCells();
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
  }

  /**
   * Draws again when something is different.
   * @param known what the data and the source are told from others by
   * @param source the cells that the data come from, in words
   */
  draw(data: ChartData, source: string, known: string, width: number, height: number): void {
    const drawn = `${width} ${height} ${known}`;
    if (drawn === this.drawn) return;
    this.drawn = drawn;
    const drawing = drawChart(data, width, height, source, `chart-${this.key}`);
    [this.points, this.width] = ["picture" in drawing ? drawing.points : [], width];
    this.svg = "picture" in drawing ? svgElement(drawing.picture) : null;
    this.element.replaceChildren(...(this.svg ? [this.svg] : inSentences(data.title, "sentence" in drawing ? drawing.sentence : "")), this.says);
    this.element.setAttribute("aria-label", this.svg ? host.charts.keys(data.title) : data.title || host.charts.untitled);
    this.show(this.at < this.points.length ? this.at : -1);
  }

  /** A chart over the edge of frozen rows has a box in each part: screen readers and the keyboard meet one of them. */
  offer(offered: boolean): void {
    const reads = offered && this.points.length > 0;
    this.element.setAttribute("role", reads ? "application" : "group");
    this.element.toggleAttribute("aria-hidden", false);
    if (!offered) this.element.setAttribute("aria-hidden", "true");
    if (reads) this.element.tabIndex = 0;
    else this.element.removeAttribute("tabindex");
  }

  private point({ clientX, clientY }: PointerEvent): void {
    const box = this.svg?.getBoundingClientRect();
    if (!box) return;
    const scale = this.width / box.width;
    this.show(pointAt(this.points, (clientX - box.left) * scale, (clientY - box.top) * scale));
  }

  private show(at: number): void {
    this.at = at;
    this.svg?.querySelector(".here")?.remove();
    const point = this.points[at];
    this.says.textContent = point?.says ?? "";
    if (!point || !this.svg) return;
    const { left, top, right, bottom } = point;
    this.svg.append(svgElement(shape("rect", { class: "here", x: left - RING, y: top - RING, width: right - left + 2 * RING, height: bottom - top + 2 * RING, rx: RING })));
    const scale = this.svg.getBoundingClientRect().width / this.width;
    const { offsetWidth, offsetHeight } = this.says;
    const above = top * scale - GAP - offsetHeight;
    const place = { x: ((left + right) / 2) * scale - offsetWidth / 2, y: above >= 0 ? above : bottom * scale + GAP };
    this.says.style.left = `${Math.max(0, Math.min(place.x, this.element.clientWidth - offsetWidth))}px`;
    this.says.style.top = `${Math.max(0, Math.min(place.y, this.element.clientHeight - offsetHeight))}px`;
  }
}

function inSentences(title: string, sentence: string): HTMLElement[] {
  const [heading, text] = [document.createElement("strong"), document.createElement("p")];
  [heading.textContent, text.textContent] = [title, sentence];
  return title === "" ? [text] : [heading, text];
}
