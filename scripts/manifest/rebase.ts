import fs from "node:fs";
import { setup } from "../../src/words/setup";
import { addressesOf, baseOf } from "./addresses";
import { readXml } from "./element";
import { checkManifest, type Surroundings } from "./manifest";

const words = setup.manifest;

/**
 * The base address in one form: https, and ending in a slash.
 * @throws Error with a sentence for anything that is not an https address, or has a query, a fragment or a user in it
 */
export function readBase(given: string): string {
  const address = URL.canParse(given) ? new URL(given) : undefined;
  const usable = address?.protocol === "https:" && !/[?#\s"<>]/.test(given) && !address.username && !address.password;
  if (!address || !usable) throw new Error(words.baseNotUnderstood(given));
  return address.href.endsWith("/") ? address.href : `${address.href}/`;
}

/**
 * A manifest whose every address lies under another base; nothing else of the text changes.
 * @param base "https://host/path/"; see readBase
 * @throws Error with a sentence if the base or the manifest cannot be used
 */
export function rebaseManifest(source: string, base: string): string {
  const wanted = readBase(base);
  const { root, faults } = readXml(source);
  if (!root) throw new Error(words.notWellFormed(faults[0]?.message ?? ""));
  const old = baseOf(root) ?? "";
  const moved = source.split(`="${escaped(old)}`).join(`="${escaped(wanted)}`);
  const after = readXml(moved).root;
  const left = after && [...addressesOf(after)].find(({ value }) => !value.startsWith(wanted));
  if (left) throw new Error(words.rebaseFailed(wanted, words.elsewhere(left.value, wanted)));
  return moved;
}

/** The functions' metadata with its help links under another base: the text of a functions.json in, the new text out. */
export function rebaseFunctions(text: string, oldBase: string, base: string): string {
  const wanted = readBase(base);
  const metadata = JSON.parse(text) as { functions: { helpUrl?: string }[] };
  for (const entry of metadata.functions) {
    if (entry.helpUrl?.startsWith(oldBase)) entry.helpUrl = wanted + entry.helpUrl.slice(oldBase.length);
  }
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

/**
 * Writes `around.site`/functions.json and the manifest at `target` for another base, and checks both before the manifest is kept.
 * @throws Error with the first broken rule; the target is not written then
 */
export function writeRebased(source: string, base: string, target: string, around: Surroundings & { site: string }): void {
  const wanted = readBase(base);
  const root = readXml(source).root;
  const manifest = rebaseManifest(source, wanted);
  const functions = `${around.site}/functions.json`;
  if (root && fs.existsSync(functions)) {
    fs.writeFileSync(functions, rebaseFunctions(fs.readFileSync(functions, "utf8"), baseOf(root) ?? "", wanted));
  }
  const [first] = checkManifest(manifest, around).findings;
  if (first) throw new Error(words.rebaseFailed(wanted, words.at(first.file, first.line, first.sentence)));
  fs.writeFileSync(target, manifest);
}

const escaped = (address: string): string => address.replaceAll("&", "&amp;");
