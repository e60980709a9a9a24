import type { GridStyle } from "../grid-port";
import { ClientObject, type Loadable, type LoadOption } from "./client-object";
import { invalidArgument } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { gridPart, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

/** Excel counts widths in points, the grid in pixels of a screen at 96 dots per inch. */
const POINTS_PER_PIXEL = 0.75;
/** Of Excel. */
const MOST_ROW_POINTS = 409;

type Find = () => RangeTarget | null;

/** How the cells of a range look. On whole rows and columns only the cells are set that the grid has. */
abstract class StyledCells extends ClientObject<RangeTarget> {
  protected readStyle<Name extends keyof GridStyle>(target: RangeTarget, name: Name): GridStyle[Name] | null {
    const part = gridPart(this.local, target);
    return part && this.local.port.formats.style(part.sheet, part.address)[name];
  }

  protected setStyle<Name extends keyof GridStyle>(property: string, name: Name, value: GridStyle[Name]): void {
    this.setCopy(property, value, (target) => this.setPart(target, name, value));
  }

  private setPart<Name extends keyof GridStyle>(target: RangeTarget, name: Name, value: GridStyle[Name]): void {
    const part = gridPart(this.local, target);
    if (part) this.local.port.formats.setStyle(part.sheet, part.address, { [name]: value });
  }
}

class LocalFill extends StyledCells implements Pick<Excel.RangeFill, "clear" | "color" | "context" | "load"> {
  protected override readonly readers = { color: (target: RangeTarget) => this.readStyle(target, "fill") };

  get color(): string {
    return this.loadedCopy("color") as string;
  }

  set color(color: string) {
    this.setStyle("color", "fill", colour(color, "RangeFill.color"));
  }

  clear(): void {
    this.setStyle("color", "fill", "");
  }

  load(option?: LoadOption): Excel.RangeFill {
    this.queueLoad(option);
    return this as Partial<Excel.RangeFill> as Excel.RangeFill;
  }
}

class LocalFont extends StyledCells implements Pick<Excel.RangeFont, "bold" | "color" | "context" | "italic" | "load"> {
  protected override readonly readers = {
    bold: (target: RangeTarget) => this.readStyle(target, "bold"),
    italic: (target: RangeTarget) => this.readStyle(target, "italic"),
    color: (target: RangeTarget) => this.readStyle(target, "color"),
  };

  get bold(): boolean {
    return this.loadedCopy("bold") as boolean;
  }

  set bold(bold: boolean) {
    this.setStyle("bold", "bold", bold);
  }

  get italic(): boolean {
    return this.loadedCopy("italic") as boolean;
  }

  set italic(italic: boolean) {
    this.setStyle("italic", "italic", italic);
  }

  get color(): string {
    return this.loadedCopy("color") as string;
  }

  set color(color: string) {
    this.setStyle("color", "color", colour(color, "RangeFont.color"));
  }

  load(option?: LoadOption): Excel.RangeFont {
    this.queueLoad(option);
    return this as Partial<Excel.RangeFont> as Excel.RangeFont;
  }
}

type Members = "autofitColumns" | "columnWidth" | "context" | "fill" | "font" | "horizontalAlignment" | "load" | "rowHeight" | "wrapText";

class LocalFormat extends StyledCells implements Pick<Excel.RangeFormat, Members> {
  protected override readonly readers = {
    columnWidth: (target: RangeTarget) => this.readWidth(target),
    horizontalAlignment: (target: RangeTarget) => this.readStyle(target, "align"),
    rowHeight: (target: RangeTarget) => this.readHeight(target),
    wrapText: (target: RangeTarget) => this.readStyle(target, "wrap"),
  };
  readonly fill: Excel.RangeFill;
  readonly font: Excel.RangeFont;

  constructor(local: LocalContext, find: Find) {
    super(local, "RangeFormat", find);
    const fill: Partial<Excel.RangeFill> = onlyWhatStands(new LocalFill(local, "RangeFill", find), "RangeFill");
    const font: Partial<Excel.RangeFont> = onlyWhatStands(new LocalFont(local, "RangeFont", find), "RangeFont");
    this.fill = fill as Excel.RangeFill;
    this.font = font as Excel.RangeFont;
  }

  protected override part(name: string): Loadable | undefined {
    if (name === "fill") return this.fill;
    return name === "font" ? this.font : undefined;
  }

  /** Points; null where the columns differ. */
  get columnWidth(): number {
    return this.loadedCopy("columnWidth") as number;
  }

  set columnWidth(points: number) {
    if (!(points >= 0)) throw invalidArgument("RangeFormat.columnWidth", "a width is zero points or more.");
    this.setCopy("columnWidth", points, (target) => {
      const part = gridPart(this.local, target);
      if (part) this.local.port.formats.setColumnWidth(part.sheet, part.address, Math.round(points / POINTS_PER_PIXEL));
    });
  }

  /** Points; null where the rows differ. */
  get rowHeight(): number {
    return this.loadedCopy("rowHeight") as number;
  }

  set rowHeight(points: number) {
    if (!(points >= 0 && points <= MOST_ROW_POINTS)) throw invalidArgument("RangeFormat.rowHeight", `a height is 0 to ${MOST_ROW_POINTS} points.`);
    this.setCopy("rowHeight", points, (target) => {
      const part = gridPart(this.local, target);
      if (part) this.local.port.formats.setRowHeight(part.sheet, part.address, Math.round(points / POINTS_PER_PIXEL));
    });
  }

  get wrapText(): boolean {
    return this.loadedCopy("wrapText") as boolean;
  }

  set wrapText(wrap: boolean) {
    this.setStyle("wrapText", "wrap", wrap);
  }

  get horizontalAlignment(): GridStyle["align"] {
    return this.loadedCopy("horizontalAlignment") as GridStyle["align"];
  }

  set horizontalAlignment(align: Excel.RangeFormat["horizontalAlignment"]) {
    if (align !== "General" && align !== "Left" && align !== "Center" && align !== "Right") throw invalidArgument("RangeFormat.horizontalAlignment", `the grid does not have "${align}".`);
    this.setStyle("horizontalAlignment", "align", align);
  }

  autofitColumns(): void {
    this.queueWith((target) => {
      const part = gridPart(this.local, target);
      if (part) this.local.port.formats.fitColumns(part.sheet, part.address);
    });
  }

  load(option?: LoadOption): Excel.RangeFormat {
    this.queueLoad(option);
    return this as Partial<Excel.RangeFormat> as Excel.RangeFormat;
  }

  private readHeight(target: RangeTarget): number | null {
    const part = gridPart(this.local, target);
    const [first, ...rest] = part ? this.local.port.formats.rowHeights(part.sheet, part.address) : [];
    return first === undefined || rest.some((height) => height !== first) ? null : first * POINTS_PER_PIXEL;
  }

  private readWidth(target: RangeTarget): number | null {
    const part = gridPart(this.local, target);
    const [first, ...rest] = part ? this.local.port.formats.columnWidths(part.sheet, part.address) : [];
    return first === undefined || rest.some((width) => width !== first) ? null : first * POINTS_PER_PIXEL;
  }
}

export function rangeFormatOf(local: LocalContext, find: Find): Excel.RangeFormat {
  const offered: Partial<Excel.RangeFormat> = onlyWhatStands(new LocalFormat(local, find), "RangeFormat");
  return offered as Excel.RangeFormat;
}

/** Excel takes names of colours too; the names of the web beyond black and white are not kept here, and refused. */
export function colour(color: string, location: string): string {
  if (/^#[0-9a-f]{6}$/i.test(color)) return color.toUpperCase();
  const named = { black: "#000000", white: "#FFFFFF" }[color.toLowerCase()];
  if (!named) throw invalidArgument(location, `"${color}" is not a colour of the form #RRGGBB.`);
  return named;
}
