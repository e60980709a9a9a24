import { columnLetters, sheetReference } from "../../files/address";
import type { BookChart, BookConditionalFormat, BookValidation, ChartKind, PrintSetup, TextOperator } from "../../files/book-extras";
import type { NewSheet } from "../../files/new-book-model";
import { shiftFormula } from "../../files/shared-formula";
import type { BookState, ChartState, ConditionalFormatState, PageState, PlacedRange } from "./book-state";
import { readAnyRange } from "./range-geometry";
import { ruleForFile } from "./rule-of-file";
import { TEXT_OPERATORS } from "./state-of-file";

const CHARTS: ReadonlySet<string> = new Set<ChartKind>(["ColumnClustered", "ColumnStacked", "Line", "LineMarkers", "XYScatter", "XYScatterLines", "XYScatterLinesNoMarkers"]);

/** What the writer has to know of the grid. */
export interface GridView {
  /** The name of a sheet; undefined for one that is gone. */
  sheetName(id: string): string | undefined;
  /** Whether the first cell of a range that holds anything holds a text. */
  holdsTexts(range: PlacedRange): boolean;
}

type Beyond = Pick<NewSheet, "charts" | "conditionalFormats" | "print" | "validations" | "veryHidden">;

/** What stands on one sheet beyond its cells and tables, as a file is given it. */
export function fileOfState(state: BookState, sheetId: string, grid: GridView): Beyond {
  const here = <Item extends { readonly sheetId: string }>(items: readonly Item[]) => items.filter((item) => item.sheetId === sheetId);
  const page = state.pages[sheetId];
  return {
    validations: here(state.validations).flatMap((rule): readonly BookValidation[] => {
      const written = ruleForFile(rule, rule.ref);
      return written ? [written] : [];
    }),
    conditionalFormats: here(state.conditionalFormats).flatMap((format) => conditionalFormat(format) ?? []),
    charts: here(state.charts).flatMap((chart) => chartForFile(chart, grid) ?? []),
    ...(page ? { print: printSetup(page) } : {}),
    ...(state.veryHidden.includes(sheetId) ? { veryHidden: true } : {}),
  };
}

function chartForFile({ categoryTitle, legend, name, position, series, title, type, valueTitle }: ChartState, grid: GridView): BookChart[] | undefined {
  if (!CHARTS.has(type)) return undefined;
  const reference = (range: PlacedRange | null) => {
    const sheet = range ? grid.sheetName(range.sheetId) : undefined;
    return range && sheet !== undefined ? `${sheetReference(sheet)}!${dollars(range.ref)}` : null;
  };
  return [
    {
      name,
      kind: type as ChartKind,
      title,
      categoryTitle,
      valueTitle,
      legend,
      series: series.map((one) => ({ name: one.name, values: reference(one.values), xValues: reference(one.xValues), ...(one.xValues && grid.holdsTexts(one.xValues) ? { xAreTexts: true } : {}) })),
      position,
    },
  ];
}

function dollars(ref: string): string {
  const range = readAnyRange(ref);
  if (!range) return ref;
  const corner = (row: number, column: number) => `$${columnLetters(column)}$${row + 1}`;
  const [from, to] = [corner(range.startRow, range.startColumn), corner(range.endRow, range.endColumn)];
  return from === to ? from : `${from}:${to}`;
}

/** undefined for one that was made and not given a rule yet. */
function conditionalFormat({ bold, color, fill, formula, operator, ref, seenFrom, stopIfTrue, text, type }: ConditionalFormatState): BookConditionalFormat | undefined {
  if (type === "Custom" ? formula === "" : text === "") return undefined;
  const [range, from] = [readAnyRange(ref), readAnyRange(seenFrom)];
  if (!range) return undefined;
  // In the file a formula is seen from the first cell of the range.
  const seen = from ? shiftFormula(formula.replace(/^=/, ""), range.startRow - from.startRow, range.startColumn - from.startColumn) : formula.replace(/^=/, "");
  const named = (Object.keys(TEXT_OPERATORS) as TextOperator[]).find((one) => TEXT_OPERATORS[one] === operator) ?? "contains";
  return {
    range: ref,
    formula: type === "Custom" ? seen : "",
    ...(type === "Custom" ? {} : { text: { operator: named, text } }),
    style: { ...(bold === null ? {} : { bold }), ...(color === "" ? {} : { color }), ...(fill === "" ? {} : { fill }) },
    ...(stopIfTrue ? { stopIfTrue } : {}),
  };
}

function printSetup({ orientation, printArea, titleRows, zoom }: PageState): PrintSetup {
  const [from, to] = (titleRows ?? "").split(":").map(Number);
  const fit = { ...(zoom?.horizontalFitToPages ? { wide: zoom.horizontalFitToPages } : {}), ...(zoom?.verticalFitToPages ? { tall: zoom.verticalFitToPages } : {}) };
  return {
    ...(orientation ? { orientation: orientation === "Landscape" ? "landscape" : "portrait" } : {}),
    ...(Object.keys(fit).length > 0 ? { fit } : zoom?.scale === undefined || zoom.scale === 100 ? {} : { scale: zoom.scale }),
    ...(from && to ? { titleRows: { from, to } } : {}),
    ...(printArea === undefined ? {} : { area: printArea }),
  };
}
