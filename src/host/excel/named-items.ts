import { rangeAddress, sheetReference } from "../../files/address";
import type { GridName } from "../grid-port";
import { ClientCollection } from "./client-collection";
import { ClientObject, type LoadOption } from "./client-object";
import { itemNotFound } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf, targetFinder } from "./range";
import { anyRangeAddress, isUnbounded } from "./range-geometry";
import { needed, type RangeTarget, splitReference } from "./range-target";
import type { LocalContext } from "./request-context";
import { refuseName } from "./table-shape";

type ItemMembers = "comment" | "context" | "delete" | "formula" | "getRange" | "getRangeOrNullObject" | "isNullObject" | "load" | "name" | "scope" | "type" | "value";

/** A name of the workbook or of a sheet. The target is its id. */
class LocalName extends ClientObject<string> implements Pick<Excel.NamedItem, ItemMembers> {
  protected override readonly readers = {
    name: (id: string) => this.state(id).name,
    formula: (id: string) => `=${this.state(id).formula}`,
    comment: (id: string) => this.state(id).comment,
    scope: (id: string) => (this.state(id).sheetId === null ? "Workbook" : "Worksheet"),
    type: (id: string) => typeOf(this.constant(id), this.range(id)),
    value: (id: string) => this.constant(id),
  };

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  get formula(): string {
    return this.loadedCopy("formula") as string;
  }

  get comment(): string {
    return this.loadedCopy("comment") as string;
  }

  get scope(): "Workbook" | "Worksheet" {
    return this.loadedCopy("scope") as "Workbook" | "Worksheet";
  }

  get type(): Excel.NamedItem["type"] {
    return this.loadedCopy("type") as Excel.NamedItem["type"];
  }

  get value(): unknown {
    return this.loadedCopy("value");
  }

  getRange(): Excel.Range {
    return rangeOf(this.local, this.below((id) => needed(this.range(id), "NamedItem.getRange")));
  }

  getRangeOrNullObject(): Excel.Range {
    return rangeOf(this.local, this.below((id) => this.range(id)));
  }

  delete(): void {
    this.queueWith((id) => {
      this.state(id);
      this.local.port.names.remove(id);
    });
  }

  load(option?: LoadOption): Excel.NamedItem {
    this.queueLoad(option);
    return this as Partial<Excel.NamedItem> as Excel.NamedItem;
  }

  private range(id: string): RangeTarget | null {
    return splitReference(this.local, this.state(id).formula);
  }

  /** The address of a range, a constant, or the formula itself: a formula behind a name is not calculated here. */
  private constant(id: string): string | number | boolean {
    const { formula } = this.state(id);
    const range = this.range(id);
    if (range) return `${sheetReference(this.local.sheetName(range.sheetId))}!${anyRangeAddress(range.range)}`;
    if (formula.trim() !== "" && Number.isFinite(Number(formula))) return Number(formula);
    if (/^(true|false)$/i.test(formula)) return formula.toLowerCase() === "true";
    return /^"(?:[^"]|"")*"$/.test(formula) ? formula.slice(1, -1).replace(/""/g, '"') : `=${formula}`;
  }

  private state(id: string): GridName {
    const state = this.local.port.names.list().find((one) => one.id === id);
    if (!state) throw itemNotFound("NamedItem");
    return state;
  }
}

function typeOf(value: string | number | boolean, range: RangeTarget | null): Excel.NamedItem["type"] {
  if (range) return "Range";
  if (typeof value === "number") return "Double";
  return typeof value === "boolean" ? "Boolean" : "String";
}

type Members = "add" | "context" | "getCount" | "getItem" | "getItemOrNullObject" | "items" | "load";

/** The names of the workbook, or those of one sheet. */
class LocalNames extends ClientCollection<{ readonly sheetId: string | null }, Excel.NamedItem> implements Pick<Excel.NamedItemCollection, Members> {
  add(name: string, reference: Excel.Range | string, comment = ""): Excel.NamedItem {
    const find = typeof reference === "string" ? null : targetFinder(reference);
    return this.item(() => {
      const { sheetId } = needed(this.found(), "NamedItemCollection.add");
      refuseName(this.local, name, null, "NamedItemCollection.add");
      const formula = find ? this.absolute(needed(find(), "NamedItemCollection.add")) : String(reference).replace(/^=/, "");
      return this.local.port.names.add({ name, formula, comment, sheetId });
    });
  }

  load(option?: LoadOption): Excel.NamedItemCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.NamedItemCollection> as Excel.NamedItemCollection;
  }

  protected override keys({ sheetId }: { readonly sheetId: string | null }): string[] {
    return this.local.port.names.list().filter((one) => one.sheetId === sheetId).map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return this.local.port.names.list().find((one) => one.id === id)?.name ?? "";
  }

  protected override item(find: () => string | null): Excel.NamedItem {
    const offered: Partial<Excel.NamedItem> = onlyWhatStands(new LocalName(this.local, "NamedItem", find), "NamedItem");
    return offered as Excel.NamedItem;
  }

  /** Log!$A$2:$B$9 */
  private absolute({ sheetId, range }: RangeTarget): string {
    const address = isUnbounded(range) ? anyRangeAddress(range).replace(/(\w+)/g, "$$$1") : rangeAddress(range).replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
    return `${sheetReference(this.local.sheetName(sheetId))}!${address}`;
  }
}

/** @param find gives the sheet whose own names they are, null below a null sheet, or the whole workbook */
export function namesOf(local: LocalContext, find: () => { readonly sheetId: string | null } | null): Excel.NamedItemCollection {
  const offered: Partial<Excel.NamedItemCollection> = onlyWhatStands(new LocalNames(local, "NamedItemCollection", find), "NamedItemCollection");
  return offered as Excel.NamedItemCollection;
}
