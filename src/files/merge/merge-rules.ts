import type { BookConditionalFormat, BookValidation } from "../book-extras";
import { writeConditionalFormats } from "../conditional-writer";
import type { NewSheet } from "../new-book-model";
import { readLooks } from "../read-workbook";
import { readRules, type RulePlaces } from "../rules-reader";
import { Unshown } from "../unshown";
import { writeValidations } from "../validation-writer";
import { attribute, isSpreadsheet, walkXml, type XmlTag } from "../xml";
import { prefixed, withAttributes, withElement, withoutElements } from "../xml-parts";
import { CannotMerge } from "./cannot-merge";
import { keptRules } from "./kept-rules";
import type { MergeContext } from "./merge-context";
import { PartElements } from "./part-elements";
import type { Aspect } from "./placed-book";

/** A worksheet part with other rules for entries, and other looks by rule. Those that stand as they did, and those that the grid has not, stay. */
export async function mergeRules({ archive, styles, workbook }: MergeContext, xml: string, part: string, before: NewSheet, now: NewSheet, aspects: ReadonlySet<Aspect>): Promise<string> {
  const places: RulePlaces = { validations: [], conditionalFormats: [] };
  const read = readRules(xml, part, await readLooks(archive, workbook), new Unshown(), places);
  const placed = (rules: readonly { readonly range: string }[], elements: readonly number[]) => rules.map(({ range }, i) => ({ range, element: elements[i] ?? -1 }));
  let text = xml;
  if (aspects.has("validations")) {
    const { first, gone, last } = keptRules<BookValidation>(placed(read.validations, places.validations), before.validations ?? [], now.validations ?? []);
    text = withValidations(text, part, gone, [...first, ...last]);
  }
  if (aspects.has("conditionalFormats")) {
    const { first, gone, last } = keptRules<BookConditionalFormat>(placed(read.conditionalFormats, places.conditionalFormats), before.conditionalFormats ?? [], now.conditionalFormats ?? []);
    const bare = withoutNth(text, part, "cfRule", gone);
    const moved = first.length === 0 ? bare : withAttributes(bare, part, (tag) => (tag.local === "cfRule" && attribute(tag, "priority") !== undefined ? { priority: String(Number(attribute(tag, "priority")) + first.length) } : null));
    const elements = new PartElements(moved, part);
    const written = writeConditionalFormats(first, styles.writer) + writeConditionalFormats(last, styles.writer, highestPriority(moved, part) + 1);
    // One in which no rule is left goes, too.
    const kept = elements.all("conditionalFormatting").filter((element) => /<(?:[\w.-]+:)?cfRule\b/.test(element));
    elements.put("conditionalFormatting", kept.join("") + prefixed(written, elements.prefix));
    text = elements.text();
  }
  return text;
}

function withValidations(xml: string, part: string, gone: ReadonlySet<number>, added: readonly BookValidation[]): string {
  const bare = withoutNth(xml, part, "dataValidation", gone);
  const written = writeValidations([], added);
  const elements = new PartElements(bare, part);
  const list = elements.first("dataValidations");
  const left = list === undefined ? 0 : [...list.matchAll(/<(?:[\w.-]+:)?dataValidation\b/g)].length;
  if (left === 0) {
    elements.put("dataValidations", prefixed(written, elements.prefix));
    return elements.text();
  }
  const inner = written.replace(/^<dataValidations[^>]*>|<\/dataValidations>$/g, "");
  const grown = inner === "" ? bare : withElement(bare, part, (prefix) => prefixed(inner, prefix), isNamed("dataValidations"));
  return withAttributes(grown, part, (tag) => (isNamed("dataValidations")(tag) ? { count: String(left + added.length) } : null));
}

/** Without the elements of that name with those numbers, counted through the part from 0. */
function withoutNth(xml: string, part: string, local: string, gone: ReadonlySet<number>): string {
  let number = -1;
  return gone.size === 0 ? xml : withoutElements(xml, part, (tag) => {
    if (tag.local !== local) return false;
    number += 1;
    // One of the extension is told in two places.
    if (gone.has(number) && !isSpreadsheet(tag)) throw new CannotMerge("A rule of the extension changed.");
    return gone.has(number);
  });
}

function highestPriority(xml: string, part: string): number {
  let highest = 0;
  walkXml(xml, part, {
    open(tag) {
      if (tag.local === "cfRule") highest = Math.max(highest, Number(attribute(tag, "priority") ?? 0));
    },
  });
  return highest;
}

const isNamed = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;
