import type { ConditionalFormatState } from "./book-state";
import { ClientObject, type Loadable, type LoadOption } from "./client-object";
import { invalidArgument, itemNotFound, notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { colour } from "./range-format";
import { type RangeTarget, targetOfPlaced } from "./range-target";
import type { LocalContext } from "./request-context";

type Find = () => string | null;
type MakeRange = (find: () => RangeTarget | null) => Excel.Range;

const OPERATORS = new Set<string>(["Contains", "NotContains", "BeginsWith", "EndsWith"]);

/** Something of one conditional format. The target is the format's id. */
abstract class PartOfFormat extends ClientObject<string> {
  protected state(id: string): ConditionalFormatState {
    const state = this.local.state().conditionalFormats.find((one) => one.id === id);
    if (!state) throw itemNotFound("ConditionalFormat");
    return state;
  }

  protected change(property: string, value: unknown, change: Partial<ConditionalFormatState>): void {
    this.setCopy(property, value, (id) => {
      this.state(id);
      this.local.changeState({ conditionalFormats: this.local.port.state.current().conditionalFormats.map((one) => (one.id === id ? { ...one, ...change } : one)) });
    });
  }
}

class LocalFont extends PartOfFormat implements Pick<Excel.ConditionalRangeFont, "bold" | "color" | "context" | "load"> {
  protected override readonly readers = { bold: (id: string) => this.state(id).bold, color: (id: string) => this.state(id).color };

  get bold(): boolean {
    return this.loadedCopy("bold") as boolean;
  }

  set bold(bold: boolean) {
    this.change("bold", bold, { bold });
  }

  get color(): string {
    return this.loadedCopy("color") as string;
  }

  set color(color: string) {
    this.change("color", color, { color: colour(color, "ConditionalRangeFont.color") });
  }

  load(option?: LoadOption): Excel.ConditionalRangeFont {
    this.queueLoad(option);
    return this as Partial<Excel.ConditionalRangeFont> as Excel.ConditionalRangeFont;
  }
}

class LocalFill extends PartOfFormat implements Pick<Excel.ConditionalRangeFill, "clear" | "color" | "context" | "load"> {
  protected override readonly readers = { color: (id: string) => this.state(id).fill };

  get color(): string {
    return this.loadedCopy("color") as string;
  }

  set color(color: string) {
    this.change("color", color, { fill: colour(color, "ConditionalRangeFill.color") });
  }

  clear(): void {
    this.change("color", "", { fill: "" });
  }

  load(option?: LoadOption): Excel.ConditionalRangeFill {
    this.queueLoad(option);
    return this as Partial<Excel.ConditionalRangeFill> as Excel.ConditionalRangeFill;
  }
}

function rangeFormat(local: LocalContext, find: Find): Excel.ConditionalRangeFormat {
  const fill: Partial<Excel.ConditionalRangeFill> = onlyWhatStands(new LocalFill(local, "ConditionalRangeFill", find), "ConditionalRangeFill");
  const font: Partial<Excel.ConditionalRangeFont> = onlyWhatStands(new LocalFont(local, "ConditionalRangeFont", find), "ConditionalRangeFont");
  const members: Pick<Excel.ConditionalRangeFormat, "fill" | "font"> = { fill: fill as Excel.ConditionalRangeFill, font: font as Excel.ConditionalRangeFont };
  return onlyWhatStands(members, "ConditionalRangeFormat") as Excel.ConditionalRangeFormat;
}

class LocalRule extends PartOfFormat implements Pick<Excel.ConditionalFormatRule, "context" | "formula" | "load"> {
  protected override readonly readers = { formula: (id: string) => this.state(id).formula };

  get formula(): string {
    return this.loadedCopy("formula") as string;
  }

  set formula(formula: string) {
    this.change("formula", formula, { formula: formula.startsWith("=") ? formula : `=${formula}` });
  }

  load(option?: LoadOption): Excel.ConditionalFormatRule {
    this.queueLoad(option);
    return this as Partial<Excel.ConditionalFormatRule> as Excel.ConditionalFormatRule;
  }
}

/** Text rules: the format and a rule that is a plain record. */
class LocalTextRule extends PartOfFormat implements Pick<Excel.TextConditionalFormat, "format" | "load" | "rule"> {
  protected override readonly readers = {
    rule: (id: string) => {
      const { operator, text } = this.state(id);
      return { operator, text };
    },
  };
  readonly format: Excel.ConditionalRangeFormat;

  constructor(local: LocalContext, find: Find) {
    super(local, "TextConditionalFormat", find);
    this.format = rangeFormat(local, find);
  }

  get rule(): Excel.ConditionalTextComparisonRule {
    return this.loadedCopy("rule") as Excel.ConditionalTextComparisonRule;
  }

  set rule({ operator, text }: Excel.ConditionalTextComparisonRule) {
    if (!OPERATORS.has(operator)) throw invalidArgument("TextConditionalFormat.rule", `there is no operator "${operator}".`);
    this.change("rule", { operator, text }, { operator, text });
  }

  load(option?: LoadOption): Excel.TextConditionalFormat {
    this.queueLoad(option);
    return this as Partial<Excel.TextConditionalFormat> as Excel.TextConditionalFormat;
  }
}

type Members = "context" | "custom" | "delete" | "getRange" | "id" | "isNullObject" | "load" | "stopIfTrue" | "textComparison" | "type";

class LocalConditionalFormat extends PartOfFormat implements Pick<Excel.ConditionalFormat, Members> {
  protected override readonly readers = { id: (id: string) => id, type: (id: string) => this.state(id).type, stopIfTrue: (id: string) => this.state(id).stopIfTrue };
  readonly custom: Excel.CustomConditionalFormat;
  readonly textComparison: Excel.TextConditionalFormat;

  constructor(local: LocalContext, find: Find, private readonly makeRange: MakeRange) {
    super(local, "ConditionalFormat", find);
    const own = this.below((id) => id);
    const rule: Partial<Excel.ConditionalFormatRule> = onlyWhatStands(new LocalRule(local, "ConditionalFormatRule", own), "ConditionalFormatRule");
    const custom: Pick<Excel.CustomConditionalFormat, "format" | "rule"> = { format: rangeFormat(local, own), rule: rule as Excel.ConditionalFormatRule };
    this.custom = onlyWhatStands(custom, "CustomConditionalFormat") as Excel.CustomConditionalFormat;
    const text: Partial<Excel.TextConditionalFormat> = onlyWhatStands(new LocalTextRule(local, own), "TextConditionalFormat");
    this.textComparison = text as Excel.TextConditionalFormat;
  }

  protected override part(name: string): Loadable | undefined {
    return name === "textComparison" ? this.textComparison : undefined;
  }

  get id(): string {
    return this.loadedCopy("id") as string;
  }

  get type(): Excel.ConditionalFormat["type"] {
    return this.loadedCopy("type") as Excel.ConditionalFormat["type"];
  }

  get stopIfTrue(): boolean {
    return this.loadedCopy("stopIfTrue") as boolean;
  }

  set stopIfTrue(stopIfTrue: boolean) {
    this.change("stopIfTrue", stopIfTrue, { stopIfTrue });
  }

  getRange(): Excel.Range {
    return this.makeRange(this.below((id) => targetOfPlaced(this.state(id))));
  }

  delete(): void {
    this.queueWith((id) => this.local.changeState({ conditionalFormats: this.local.port.state.current().conditionalFormats.filter((one) => one.id !== id) }));
  }

  load(option?: LoadOption): Excel.ConditionalFormat {
    this.queueLoad(option);
    return this as Partial<Excel.ConditionalFormat> as Excel.ConditionalFormat;
  }
}

export function conditionalFormatOf(local: LocalContext, find: Find, makeRange: MakeRange): Excel.ConditionalFormat {
  const offered: Partial<Excel.ConditionalFormat> = onlyWhatStands(new LocalConditionalFormat(local, find, makeRange), "ConditionalFormat");
  return offered as Excel.ConditionalFormat;
}

/** The kinds that the local host has. */
export function conditionalType(type: string): ConditionalFormatState["type"] {
  if (type !== "Custom" && type !== "ContainsText") throw notImplemented("ConditionalFormatCollection", `add("${type}")`);
  return type;
}
