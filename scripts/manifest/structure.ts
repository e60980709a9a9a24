import { setup } from "../../src/words/setup";
import type { Element } from "./element";
import type { Check } from "./report";
import type { ElementRule, ValueRule } from "./schema";

const words = setup.manifest;

/** Holds an element and all below it against its rule: which elements, in which order, how often, and what their values look like. */
export function checkStructure(element: Element, rule: ElementRule, check: Check): void {
  checkAttributes(element, rule, check);
  if (rule.text) checkValue(element.name, element.text, rule.text, element.line, check);
  else check(element.text === "", element.line, words.strayText(element.name));
  checkChildren(element, rule.children ?? [], check);
}

function checkAttributes(element: Element, { attributes = {}, optional = {} }: ElementRule, check: Check): void {
  for (const [name, value] of Object.entries(attributes)) {
    const given = element.attributes.get(name);
    if (!check(given !== undefined, element.line, words.missingAttribute(element.name, name))) continue;
    checkValue(words.attributeOf(element.name, name), given ?? "", value, element.line, check);
  }
  for (const [name, given] of element.attributes) {
    if (name in attributes) continue;
    const value = optional[name];
    if (check(value !== undefined, element.line, words.unknownAttribute(element.name, name)) && value) {
      checkValue(words.attributeOf(element.name, name), given, value, element.line, check);
    }
  }
}

function checkChildren(element: Element, rules: readonly ElementRule[], check: Check): void {
  const counts = new Map<string, number>();
  let latest = -1;
  for (const child of element.children) {
    const place = rules.findIndex(({ name }) => name === child.name);
    const rule = rules[place];
    const known = check(rule !== undefined, child.line, words.unknownElement(element.name, child.name, rules.map(({ name }) => name)));
    if (!known || !rule) continue;
    check(place >= latest, child.line, words.outOfOrder(element.name, child.name, rules[latest]?.name ?? ""));
    latest = Math.max(latest, place);
    const count = (counts.get(child.name) ?? 0) + 1;
    counts.set(child.name, count);
    check(count <= (rule.max ?? 1), child.line, words.tooMany(element.name, child.name));
    checkStructure(child, rule, check);
  }
  for (const { name, min = 1 } of rules) {
    check((counts.get(name) ?? 0) >= min, element.line, words.missingElement(element.name, name));
  }
}

function checkValue(where: string, given: string, rule: ValueRule, line: number, check: Check): void {
  if (!check(given.trim() !== "", line, words.empty(where))) return;
  if (rule.most) check(given.length <= rule.most, line, words.tooLong(where, rule.most, given.length));
  if (rule.oneOf) check(rule.oneOf.includes(given), line, words.notOneOf(where, rule.oneOf, given));
  if (rule.form) check(rule.form.test(given), line, words.wrongForm(where, rule.wanted ?? "", given));
}
