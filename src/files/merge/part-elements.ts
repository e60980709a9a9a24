import { applyEdits, type Edit, isSpreadsheet, tagStart, walkXml } from "../xml";

/** The order in which a worksheet part holds its elements, ECMA-376 18.3.1.99. */
export const SHEET_ORDER = "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls webPublishItems tableParts extLst".split(" ");
/** The same of the workbook part, 18.2.27. */
export const WORKBOOK_ORDER = "fileVersion fileSharing workbookPr workbookProtection bookViews sheets functionGroups externalReferences definedNames calcPr oleSize customWorkbookViews pivotCaches".split(" ");

interface Child {
  readonly local: string;
  readonly start: number;
  readonly end: number;
}

/** The elements that stand directly in a part, one of which may be replaced, put in or taken out; the others stay as they are. */
export class PartElements {
  /** Of the spreadsheet elements, with its colon, or "". */
  prefix = "";
  private readonly children: Child[] = [];
  private readonly edits: Edit[] = [];
  private rootEnd = 0;

  constructor(private readonly xml: string, part: string, private readonly order: readonly string[] = SHEET_ORDER) {
    const open: number[] = [];
    walkXml(xml, part, {
      open: (tag, end) => {
        if (open.length === 0) this.prefix = tag.prefix === "" ? "" : `${tag.prefix}:`;
        open.push(tagStart(xml, end));
      },
      close: (tag, end) => {
        const start = open.pop() ?? 0;
        if (open.length === 1) this.children.push({ local: isSpreadsheet(tag) ? tag.local : "", start, end });
        if (open.length === 0) this.rootEnd = tagStart(xml, end);
      },
    });
  }

  /** The text of the first element of that name. */
  first(local: string): string | undefined {
    const child = this.children.find((one) => one.local === local);
    return child && this.xml.slice(child.start, child.end);
  }

  /** All of that name, one after the other. */
  all(local: string): string[] {
    return this.children.filter((one) => one.local === local).map(({ end, start }) => this.xml.slice(start, end));
  }

  /** Puts a text in the place of all elements of that name, each once; "" takes them out. */
  put(local: string, text: string): void {
    const known = this.children.filter((one) => one.local === local);
    known.forEach(({ end, start }, i) => this.edits.push({ start, end, text: i === 0 ? text : "" }));
    if (known.length > 0 || text === "") return;
    const place = this.order.indexOf(local);
    const next = this.children.find((one) => one.local !== "" && this.order.indexOf(one.local) > place);
    const at = next?.start ?? this.rootEnd;
    this.edits.push({ start: at, end: at, text });
  }

  text(): string {
    return this.edits.length > 0 ? applyEdits(this.xml, this.edits) : this.xml;
  }
}
