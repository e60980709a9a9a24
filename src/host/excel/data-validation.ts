import { sheetReference } from "../../files/address";
import type { ValidationState } from "./book-state";
import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument, notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { anyRangeAddress, covers, intersection, readAnyRange, without } from "./range-geometry";
import { placed, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

type Members = "clear" | "context" | "errorAlert" | "ignoreBlanks" | "load" | "prompt" | "rule" | "type";

const TYPES: Readonly<Record<string, Excel.DataValidation["type"]>> = {
  custom: "Custom",
  date: "Date",
  decimal: "Decimal",
  list: "List",
  textLength: "TextLength",
  time: "Time",
  wholeNumber: "WholeNumber",
};

/**
 * The rule for what may be typed into a range. It is kept with the workbook, not shown by the grid: without a further part the
 * grid offers no list and refuses no entry.
 */
class LocalValidation extends ClientObject<RangeTarget> implements Pick<Excel.DataValidation, Members> {
  protected override readonly readers = {
    rule: (target: RangeTarget) => this.ruleOf(target)?.rule ?? {},
    type: (target: RangeTarget) => this.typeOf(target),
    errorAlert: (target: RangeTarget) => this.ruleOf(target)?.errorAlert ?? null,
    prompt: (target: RangeTarget) => this.ruleOf(target)?.prompt ?? null,
    ignoreBlanks: (target: RangeTarget) => this.ruleOf(target)?.ignoreBlanks ?? true,
  };

  get rule(): Excel.DataValidationRule {
    return this.loadedCopy("rule") as Excel.DataValidationRule;
  }

  set rule(rule: Excel.DataValidationRule) {
    const kinds = Object.keys(rule).filter((name) => name in TYPES);
    if (kinds.length !== 1) throw invalidArgument("DataValidation.rule", "a rule has one kind, such as list.");
    const given = plainRule(this.local, rule);
    this.setCopy("rule", rule, (target) => this.replace(target, { ...placed(target), rule: given(), errorAlert: null, prompt: null, ignoreBlanks: true }));
  }

  get type(): Excel.DataValidation["type"] {
    return this.loadedCopy("type") as Excel.DataValidation["type"];
  }

  get errorAlert(): Excel.DataValidationErrorAlert {
    return this.loadedCopy("errorAlert") as Excel.DataValidationErrorAlert;
  }

  set errorAlert(errorAlert: Excel.DataValidationErrorAlert) {
    this.setCopy("errorAlert", errorAlert, (target) => this.change(target, "errorAlert", { errorAlert: { ...errorAlert } }));
  }

  get prompt(): Excel.DataValidationPrompt {
    return this.loadedCopy("prompt") as Excel.DataValidationPrompt;
  }

  set prompt(prompt: Excel.DataValidationPrompt) {
    this.setCopy("prompt", prompt, (target) => this.change(target, "prompt", { prompt: { ...prompt } }));
  }

  get ignoreBlanks(): boolean {
    return this.loadedCopy("ignoreBlanks") as boolean;
  }

  set ignoreBlanks(ignoreBlanks: boolean) {
    this.setCopy("ignoreBlanks", ignoreBlanks, (target) => this.change(target, "ignoreBlanks", { ignoreBlanks }));
  }

  clear(): void {
    this.queueWith((target) => this.replace(target, null));
  }

  load(option?: LoadOption): Excel.DataValidation {
    this.queueLoad(option);
    return this as Partial<Excel.DataValidation> as Excel.DataValidation;
  }

  /** The rule that covers the whole range. */
  private ruleOf(target: RangeTarget): ValidationState | undefined {
    return this.touching(target).find(({ ref }) => covers(readAnyRange(ref) ?? target.range, target.range));
  }

  private typeOf(target: RangeTarget): Excel.DataValidation["type"] {
    const rule = this.ruleOf(target)?.rule;
    if (!rule) return this.touching(target).length > 0 ? "Inconsistent" : "None";
    return TYPES[Object.keys(rule)[0] ?? ""] ?? "None";
  }

  private touching(target: RangeTarget): ValidationState[] {
    return this.local.state().validations.filter(({ sheetId, ref }) => {
      const range = readAnyRange(ref);
      return sheetId === target.sheetId && range && intersection(range, target.range);
    });
  }

  private change(target: RangeTarget, member: string, change: Partial<ValidationState>): void {
    const before = this.ruleOf(target);
    if (!before) throw invalidArgument(`DataValidation.${member}`, "set the rule first.");
    this.replace(target, { ...before, ...placed(target), ...change });
  }

  /** Cuts the range out of the rules that stand, and gives it the new one. */
  private replace(target: RangeTarget, next: ValidationState | null): void {
    const rest = this.local.port.state.current().validations.flatMap((rule) => {
      const range = rule.sheetId === target.sheetId ? readAnyRange(rule.ref) : undefined;
      return range ? without(range, target.range).map((part) => ({ ...rule, ref: anyRangeAddress(part) })) : [rule];
    });
    this.local.changeState({ validations: next ? [...rest, next] : rest });
  }
}

/** A plain copy of the rule: a range as the source of a list becomes a formula, once it is found. */
function plainRule(local: LocalContext, rule: Excel.DataValidationRule): () => Record<string, unknown> {
  const copy = { ...rule } as Record<string, unknown>;
  const { list } = rule;
  if (!list) return () => copy;
  if (typeof list.source === "string") {
    copy.list = { inCellDropDown: list.inCellDropDown, source: list.source };
    return () => copy;
  }
  const found = (list.source as Partial<{ found(): RangeTarget | null }>).found?.bind(list.source);
  if (!found) throw notImplemented("DataValidation", "a list from an object that is no range");
  return () => {
    const source = found();
    if (!source) throw invalidArgument("DataValidation.rule", "the range of the list is missing.");
    const address = anyRangeAddress(source.range).replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");
    return { ...copy, list: { inCellDropDown: list.inCellDropDown, source: `=${sheetReference(local.sheetName(source.sheetId))}!${address}` } };
  };
}

export function dataValidationOf(local: LocalContext, find: () => RangeTarget | null): Excel.DataValidation {
  const offered: Partial<Excel.DataValidation> = onlyWhatStands(new LocalValidation(local, "DataValidation", find), "DataValidation");
  return offered as Excel.DataValidation;
}
