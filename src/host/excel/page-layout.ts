import type { PageState } from "./book-state";
import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf, targetFinder } from "./range";
import { anyRangeAddress, entireRows, readAnyRange } from "./range-geometry";
import { type RangeTarget, targetOfPlaced } from "./range-target";
import type { LocalContext } from "./request-context";

type Members = "context" | "getPrintAreaOrNullObject" | "getPrintTitleRowsOrNullObject" | "load" | "orientation" | "setPrintTitleRows" | "zoom";

/** How a sheet prints. The grid does not print: all of it is kept for the file. The target is the sheet's id. */
class LocalPageLayout extends ClientObject<string> implements Pick<Excel.PageLayout, Exclude<Members, "getPrintAreaOrNullObject">> {
  protected override readonly readers = {
    orientation: (id: string) => this.state(id).orientation ?? "Portrait",
    zoom: (id: string) => this.state(id).zoom ?? { scale: 100 },
  };

  get orientation(): "Landscape" | "Portrait" {
    return this.loadedCopy("orientation") as "Landscape" | "Portrait";
  }

  set orientation(orientation: Excel.PageOrientation | "Landscape" | "Portrait") {
    const name = String(orientation);
    if (name !== "Landscape" && name !== "Portrait") throw invalidArgument("PageLayout.orientation", `"${name}" is not Landscape or Portrait.`);
    this.setCopy("orientation", name, (id) => this.change(id, { orientation: name }));
  }

  get zoom(): Excel.PageLayoutZoomOptions {
    return this.loadedCopy("zoom") as Excel.PageLayoutZoomOptions;
  }

  set zoom({ horizontalFitToPages, scale, verticalFitToPages }: Excel.PageLayoutZoomOptions) {
    const zoom = Object.fromEntries(Object.entries({ horizontalFitToPages, scale, verticalFitToPages }).filter(([, value]) => value !== undefined && value !== null));
    this.setCopy("zoom", zoom, (id) => this.change(id, { zoom }));
  }

  setPrintTitleRows(printTitleRows: Excel.Range | string): void {
    this.withRange(printTitleRows, "PageLayout.setPrintTitleRows", (id, { range }) => this.change(id, { titleRows: anyRangeAddress(entireRows(range)) }));
  }

  setPrintArea(printArea: Excel.Range | Excel.RangeAreas | string): void {
    this.withRange(printArea as Excel.Range | string, "PageLayout.setPrintArea", (id, { range }) => this.change(id, { printArea: anyRangeAddress(range) }));
  }

  /** As Excel: a null object where none is set. */
  getPrintTitleRowsOrNullObject(): Excel.Range {
    return this.keptRange("titleRows");
  }

  /** In Excel this is a RangeAreas; the local host has print areas of one range, of which the members in common stand. */
  getPrintAreaOrNullObject(): Excel.RangeAreas {
    return this.keptRange("printArea") as unknown as Excel.RangeAreas;
  }

  load(option?: LoadOption): Excel.PageLayout {
    this.queueLoad(option);
    return this as Partial<Excel.PageLayout> as Excel.PageLayout;
  }

  private keptRange(name: "printArea" | "titleRows"): Excel.Range {
    return rangeOf(
      this.local,
      this.below((sheetId) => {
        const ref = this.state(sheetId)[name];
        return ref === undefined ? null : targetOfPlaced({ sheetId, ref });
      }),
    );
  }

  private withRange(given: Excel.Range | string, location: string, act: (id: string, target: RangeTarget) => void): void {
    const find = typeof given === "string" ? null : targetFinder(given);
    this.queueWith((sheetId) => {
      const range = find ? undefined : readAnyRange(String(given));
      const target = find ? find() : range && { sheetId, range };
      if (!target || target.sheetId !== sheetId) throw invalidArgument(location, "the range is none of this sheet.");
      act(sheetId, target);
    });
  }

  private state(id: string): PageState {
    return this.local.state().pages[id] ?? {};
  }

  private change(id: string, change: PageState): void {
    const { pages } = this.local.port.state.current();
    this.local.changeState({ pages: { ...pages, [id]: { ...pages[id], ...change } } });
  }
}

export function pageLayoutOf(local: LocalContext, find: () => string | null): Excel.PageLayout {
  const offered: Partial<Excel.PageLayout> = onlyWhatStands(new LocalPageLayout(local, "PageLayout", find), "PageLayout");
  return offered as Excel.PageLayout;
}
