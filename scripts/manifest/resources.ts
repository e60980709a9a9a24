import { setup } from "../../src/words/setup";
import { type Element, everyElement, find } from "./element";
import type { Check } from "./report";
import { type ElementRule, manifestSchema, type ResourceList } from "./schema";

const words = setup.manifest;
const LISTS: readonly ResourceList[] = ["bt:Images", "bt:Urls", "bt:ShortStrings", "bt:LongStrings"];

interface Reference {
  element: Element;
  list: ResourceList;
  resid: string;
}

/** Every resid has its resource in the right list, every resource is used, and no id stands twice. */
export function checkResources(root: Element, check: Check): void {
  const resources = resourcesOf(root);
  const seen = new Set<string>();
  for (const { element, id } of resources) {
    check(!seen.has(id), element.line, words.resourceTwice(id));
    seen.add(id);
  }
  const references = [...referencesIn(root, manifestSchema)];
  for (const { element, list, resid } of references) {
    const found = resources.find(({ id }) => id === resid);
    if (!check(found !== undefined, element.line, words.noSuchResource(element.name, resid)) || !found) continue;
    check(found.list === list, element.line, words.wrongList(element.name, resid, list, found.list));
  }
  for (const { element, id } of resources) {
    check(references.some(({ resid }) => resid === id), element.line, words.unusedResource(id));
  }
  checkCommandIds(root, check);
}

/** The value of a resource, or undefined. */
export function resourceValue(root: Element, id: string | undefined): string | undefined {
  return resourcesOf(root).find((resource) => resource.id === id)?.element.attributes.get("DefaultValue");
}

function resourcesOf(root: Element): { element: Element; id: string; list: ResourceList }[] {
  const holder = find(root, "ov:VersionOverrides", "ov:Resources");
  return LISTS.flatMap((list) =>
    (holder ? find(holder, list)?.children ?? [] : []).map((element) => ({ element, list, id: element.attributes.get("id") ?? "" })),
  );
}

function* referencesIn(element: Element, rule: ElementRule): Generator<Reference> {
  const resid = element.attributes.get("resid");
  if (rule.refersTo && resid !== undefined) yield { element, list: rule.refersTo, resid };
  for (const child of element.children) {
    const below = rule.children?.find(({ name }) => name === child.name);
    if (below) yield* referencesIn(child, below);
  }
}

function checkCommandIds(root: Element, check: Check): void {
  const seen = new Set<string>();
  for (const element of everyElement(root)) {
    const id = element.attributes.get("id");
    if (id === undefined || !["ov:Group", "ov:Control"].includes(element.name)) continue;
    check(!seen.has(id), element.line, words.commandTwice(id));
    seen.add(id);
  }
}
