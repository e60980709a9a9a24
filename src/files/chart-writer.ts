import type { BookChart, BookSeries, ChartKind } from "./book-extras";
import { HEAD } from "./package-part";
import { rangeOf } from "./rule-ranges";
import { encodeAttribute, escapeXml } from "./xml";

const CHART = "http://schemas.openxmlformats.org/drawingml/2006/chart";
export const DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/main";
export const SHEET_DRAWING = "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing";
const RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const [CATEGORY_AXIS, VALUE_AXIS] = [500000001, 500000002];

/** Writes the part of one chart. The program that opens the file reads the figures from the cells. */
export function writeChart(chart: BookChart): string {
  return [
    HEAD,
    `<c:chartSpace xmlns:c="${CHART}" xmlns:a="${DRAWING}" xmlns:r="${RELATIONSHIPS}"><c:roundedCorners val="0"/><c:chart>`,
    chart.title === null ? "" : title(chart.title),
    `<c:autoTitleDeleted val="${chart.title === null ? 1 : 0}"/>`,
    `<c:plotArea><c:layout/>${plot(chart)}${axes(chart)}</c:plotArea>`,
    chart.legend ? '<c:legend><c:legendPos val="r"/><c:overlay val="0"/></c:legend>' : "",
    '<c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart></c:chartSpace>',
  ].join("");
}

/** Where a chart stands in a drawing. @param id a number that nothing else in the drawing has @param link the chart's relationship */
export function chartAnchor({ name, position }: BookChart, id: number, link: string): string {
  const { startRow, startColumn, endRow, endColumn } = rangeOf(position);
  const corner = (element: string, row: number, column: number) => `<xdr:${element}><xdr:col>${column}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${row}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${element}>`;
  return [
    `<xdr:twoCellAnchor>${corner("from", startRow, startColumn)}${corner("to", endRow + 1, endColumn + 1)}`,
    `<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="${id}" name="${encodeAttribute(name)}"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr>`,
    '<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm>',
    `<a:graphic><a:graphicData uri="${CHART}"><c:chart xmlns:c="${CHART}" r:id="${link}"/></a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:twoCellAnchor>`,
  ].join("");
}

/** Writes the part that places the charts of one sheet; their relationships are rId1, rId2 in their order. */
export function writeDrawing(charts: readonly BookChart[]): string {
  const anchors = charts.map((chart, i) => chartAnchor(chart, i + 2, `rId${i + 1}`));
  return `${HEAD}<xdr:wsDr xmlns:xdr="${SHEET_DRAWING}" xmlns:a="${DRAWING}" xmlns:r="${RELATIONSHIPS}">${anchors.join("")}</xdr:wsDr>`;
}

export function isScatter(kind: ChartKind): boolean {
  return kind.startsWith("XYScatter");
}

function plot({ kind, series }: BookChart): string {
  const axisIds = `<c:axId val="${CATEGORY_AXIS}"/><c:axId val="${VALUE_AXIS}"/>`;
  if (isScatter(kind)) {
    const drawn = series.map((one, i) => `<c:ser>${seriesHead(one, i)}${kind === "XYScatter" ? NO_LINE : line(i)}${marker(kind === "XYScatterLinesNoMarkers", i)}${source("xVal", one.xValues, one.xAreTexts)}${source("yVal", one.values)}<c:smooth val="0"/></c:ser>`);
    return `<c:scatterChart><c:scatterStyle val="lineMarker"/><c:varyColors val="0"/>${drawn.join("")}${axisIds}</c:scatterChart>`;
  }
  if (kind === "Line" || kind === "LineMarkers") {
    const drawn = series.map((one, i) => `<c:ser>${seriesHead(one, i)}${line(i)}${marker(kind === "Line", i)}${source("cat", one.xValues, one.xAreTexts)}${source("val", one.values)}<c:smooth val="0"/></c:ser>`);
    return `<c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/>${drawn.join("")}<c:marker val="1"/>${axisIds}</c:lineChart>`;
  }
  const stacked = kind === "ColumnStacked";
  const drawn = series.map((one, i) => `<c:ser>${seriesHead(one, i)}<c:spPr>${fill(i)}</c:spPr><c:invertIfNegative val="0"/>${source("cat", one.xValues, one.xAreTexts)}${source("val", one.values)}</c:ser>`);
  return `<c:barChart><c:barDir val="col"/><c:grouping val="${stacked ? "stacked" : "clustered"}"/><c:varyColors val="0"/>${drawn.join("")}<c:gapWidth val="${stacked ? 60 : 100}"/>${stacked ? '<c:overlap val="100"/>' : ""}${axisIds}</c:barChart>`;
}

/** The colours of series on the local page, in their order. LibreOffice draws no line that has none. */
const COLOURS = ["1F5FAE", "9A4A06", "2C6E3F", "7A2F86", "A3261C", "46545C"];
const QUIET = '<c:spPr><a:ln w="9525"><a:solidFill><a:srgbClr val="BFBFBF"/></a:solidFill></a:ln></c:spPr>';
const NO_LINE = '<c:spPr><a:ln w="19050"><a:noFill/></a:ln></c:spPr>';

function fill(i: number): string {
  return `<a:solidFill><a:srgbClr val="${COLOURS[i % COLOURS.length]}"/></a:solidFill>`;
}

function line(i: number): string {
  return `<c:spPr><a:ln w="19050" cap="rnd">${fill(i)}<a:round/></a:ln></c:spPr>`;
}

function marker(none: boolean, i: number): string {
  return none ? '<c:marker><c:symbol val="none"/></c:marker>' : `<c:marker><c:symbol val="circle"/><c:size val="5"/><c:spPr>${fill(i)}<a:ln w="9525">${fill(i)}</a:ln></c:spPr></c:marker>`;
}

function seriesHead({ name }: BookSeries, i: number): string {
  return `<c:idx val="${i}"/><c:order val="${i}"/><c:tx><c:v>${escapeXml(name)}</c:v></c:tx>`;
}

function source(element: string, reference: string | null, texts = false): string {
  const kind = texts ? "strRef" : "numRef";
  return reference === null ? "" : `<c:${element}><c:${kind}><c:f>${escapeXml(reference)}</c:f></c:${kind}></c:${element}>`;
}

function axes({ kind, categoryTitle, valueTitle }: BookChart): string {
  const scatter = isScatter(kind);
  const common = (id: number, position: string, text: string | null, lines: boolean) =>
    `<c:axId val="${id}"/><c:scaling><c:orientation val="minMax"/></c:scaling><c:delete val="0"/><c:axPos val="${position}"/>${lines ? `<c:majorGridlines>${QUIET}</c:majorGridlines>` : ""}${text === null ? "" : title(text)}<c:numFmt formatCode="General" sourceLinked="1"/><c:majorTickMark val="out"/><c:minorTickMark val="none"/><c:tickLblPos val="${position === "b" ? "low" : "nextTo"}"/>${QUIET}<c:crossAx val="${id === VALUE_AXIS ? CATEGORY_AXIS : VALUE_AXIS}"/><c:crosses val="autoZero"/>`;
  const across = scatter
    ? `<c:valAx>${common(CATEGORY_AXIS, "b", categoryTitle, false)}<c:crossBetween val="midCat"/></c:valAx>`
    : `<c:catAx>${common(CATEGORY_AXIS, "b", categoryTitle, false)}<c:auto val="0"/><c:lblAlgn val="ctr"/><c:lblOffset val="100"/><c:noMultiLvlLbl val="0"/></c:catAx>`;
  return `${across}<c:valAx>${common(VALUE_AXIS, "l", valueTitle, true)}<c:crossBetween val="${scatter ? "midCat" : "between"}"/></c:valAx>`;
}

/** A title without a text of its own is the one that the program makes. */
function title(text: string): string {
  const written = text === "" ? "" : `<c:tx><c:rich><a:bodyPr/><a:p><a:r><a:rPr lang="en-GB"/><a:t>${escapeXml(text)}</a:t></a:r></a:p></c:rich></c:tx>`;
  return `<c:title>${written}<c:overlay val="0"/></c:title>`;
}
