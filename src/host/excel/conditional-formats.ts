import { cellAddress } from "../../files/address";
import { type ConditionalFormatState, nextId } from "./book-state";
import { ClientCollection } from "./client-collection";
import type { LoadOption } from "./client-object";
import { conditionalFormatOf, conditionalType } from "./conditional-format";
import { onlyWhatStands } from "./only-what-stands";
import { anyRangeAddress, intersection, readAnyRange, without } from "./range-geometry";
import { needed, placed, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

type Members = "add" | "clearAll" | "context" | "getCount" | "getItem" | "getItemAt" | "getItemOrNullObject" | "items" | "load";
type MakeRange = (find: () => RangeTarget | null) => Excel.Range;

/** The conditional formats that touch a range, the first of them foremost: as in Excel, a new one comes before those that stand. */
class LocalConditionalFormats extends ClientCollection<RangeTarget, Excel.ConditionalFormat> implements Pick<Excel.ConditionalFormatCollection, Members> {
  constructor(local: LocalContext, find: () => RangeTarget | null, private readonly makeRange: MakeRange) {
    super(local, "ConditionalFormatCollection", find);
  }

  add(type: Excel.ConditionalFormatType | `${Excel.ConditionalFormatType}`): Excel.ConditionalFormat {
    const kind = conditionalType(type);
    return this.item(() => {
      const target = needed(this.found(), "ConditionalFormatCollection.add");
      const { conditionalFormats } = this.local.port.state.current();
      const id = nextId(conditionalFormats);
      const added: ConditionalFormatState = { ...placed(target), id, type: kind, formula: "", seenFrom: cellAddress(target.range.startRow, target.range.startColumn), text: "", operator: "Contains", color: "", fill: "", bold: null, stopIfTrue: false };
      this.local.changeState({ conditionalFormats: [added, ...conditionalFormats] });
      return id;
    });
  }

  /** Takes the range out of every format; a format that stood on it alone is gone. */
  clearAll(): void {
    this.queueWith(({ sheetId, range }) => {
      const { conditionalFormats } = this.local.port.state.current();
      let last = Number(nextId(conditionalFormats));
      const rest = conditionalFormats.flatMap((format) => {
        const on = format.sheetId === sheetId ? readAnyRange(format.ref) : undefined;
        return on ? without(on, range).map((part, i) => ({ ...format, id: i === 0 ? format.id : String(last++), ref: anyRangeAddress(part) })) : [format];
      });
      this.local.changeState({ conditionalFormats: rest });
    });
  }

  load(option?: LoadOption): Excel.ConditionalFormatCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.ConditionalFormatCollection> as Excel.ConditionalFormatCollection;
  }

  protected override keys({ sheetId, range }: RangeTarget): string[] {
    const touches = (ref: string) => intersection(readAnyRange(ref) ?? range, range) !== null;
    return this.local.state().conditionalFormats.filter((format) => format.sheetId === sheetId && touches(format.ref)).map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return id;
  }

  protected override item(find: () => string | null): Excel.ConditionalFormat {
    return conditionalFormatOf(this.local, find, this.makeRange);
  }
}

export function conditionalFormatsOf(local: LocalContext, find: () => RangeTarget | null, makeRange: MakeRange): Excel.ConditionalFormatCollection {
  const offered: Partial<Excel.ConditionalFormatCollection> = onlyWhatStands(new LocalConditionalFormats(local, find, makeRange), "ConditionalFormatCollection");
  return offered as Excel.ConditionalFormatCollection;
}
