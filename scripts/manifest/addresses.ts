import fs from "node:fs";
import path from "node:path";
import { setup } from "../../src/words/setup";
import { type Element, everyElement, find } from "./element";
import type { Check } from "./report";
import { type ElementRule, manifestSchema } from "./schema";

const words = setup.manifest;
/** Hosts that stand in examples and templates, and names that can never be a real host (RFC 2606, RFC 6761). */
const PLACEHOLDER = /(^|\.)(example\.(com|org|net|edu)|contoso\.com|fabrikam\.com|yourdomain\.[a-z]+|example|invalid|test)$/i;

export interface Address {
  readonly line: number;
  readonly value: string;
}

/** The folder that the add-in is served from: the address of its page without the page's name. */
export function baseOf(root: Element): string | undefined {
  return find(root, "DefaultSettings", "SourceLocation")?.attributes.get("DefaultValue")?.replace(/[^/]*$/, "");
}

/** Every web address in the manifest: each attribute that the schema says holds one. */
export function* addressesOf(element: Element, rule: ElementRule = manifestSchema): Generator<Address> {
  for (const [name, value] of element.attributes) {
    if (rule.attributes?.[name]?.isAddress) yield { line: element.line, value };
  }
  for (const child of element.children) {
    const below = rule.children?.find(({ name }) => name === child.name);
    if (below) yield* addressesOf(child, below);
  }
}

/** Every address is https, no placeholder, and under the one folder that is served; with a built folder, each file is in it. */
export function checkAddresses(root: Element, site: string | undefined, check: Check): void {
  const base = baseOf(root) ?? "";
  for (const { line, value } of addressesOf(root)) {
    const address = URL.canParse(value) ? new URL(value) : undefined;
    if (!check(address !== undefined, line, words.notAnAddress(value)) || !address) continue;
    check(address.protocol === "https:", line, words.notHttps(value));
    check(!PLACEHOLDER.test(address.hostname) && !value.includes("~remoteAppUrl"), line, words.placeholder(value));
    if (!check(value.startsWith(base), line, words.elsewhere(value, base)) || !site) continue;
    const file = decodeURIComponent(value.slice(base.length).replace(/[?#].*$/, ""));
    check(fs.existsSync(path.join(site, file)), line, words.notBuilt(value, file));
  }
}

/** The shared runtime loads only if the runtime, the functions' page and the pane name one and the same page. */
export function checkSharedRuntime(root: Element, check: Check): void {
  const elements = [...everyElement(root)];
  const runtime = elements.find(({ name }) => name === "ov:Runtime");
  const page = elements.find(({ name }) => name === "ov:Page")?.children[0];
  const panes = elements.filter(({ name }) => name === "ov:Action").flatMap((action) => action.children.filter(({ name }) => name === "ov:SourceLocation"));
  const resid = runtime?.attributes.get("resid");
  if (!runtime || !page || resid === undefined) return;
  for (const element of [page, ...panes]) check(element.attributes.get("resid") === resid, element.line, words.notShared(resid));
}
