import fs from "node:fs";
import path from "node:path";
import { setup } from "../../src/words/setup";
import { type Element, everyElement, find } from "./element";
import type { Check } from "./report";
import { resourceValue } from "./resources";

const words = setup.manifest;
const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
/** Drawn for the manifest; 128 is the size that a listing asks for. */
const DRAWN = [16, 32, 64, 80, 128];
const NEEDED_IN_RIBBON = ["16", "32", "80"];

/** Width and height in pixels from a PNG's header, or undefined for a file that is no PNG. */
export function pngSize(bytes: Buffer): { width: number; height: number } | undefined {
  if (bytes.length < 24 || !bytes.subarray(0, 8).equals(SIGNATURE) || bytes.toString("latin1", 12, 16) !== "IHDR") return undefined;
  return { width: bytes.readUInt32BE(16), height: bytes.readUInt32BE(20) };
}

/** Every icon that is named is a PNG in the folder with the pixels that it stands for. */
export function checkIcons(root: Element, folder: string, check: Check): void {
  const checkFile = (name: string, size: number, line: number): void => {
    const file = path.join(folder, name);
    if (!check(fs.existsSync(file), line, words.noIcon(name))) return;
    const found = pngSize(fs.readFileSync(file));
    if (!check(found !== undefined, line, words.notPng(name)) || !found) return;
    check(found.width === size && found.height === size, line, words.iconSize(name, size, found.width, found.height));
  };
  const checkAddress = (address: string | undefined, size: number, line: number): void => {
    if (address) checkFile(address.replace(/^.*\//, ""), size, line);
  };
  for (const [name, size] of [["IconUrl", 32], ["HighResolutionIconUrl", 64]] as const) {
    const element = find(root, name);
    checkAddress(element?.attributes.get("DefaultValue"), size, element?.line ?? root.line);
  }
  for (const icon of everyElement(root)) {
    if (icon.name !== "ov:Icon") continue;
    const sizes = icon.children.map((image) => image.attributes.get("size") ?? "");
    for (const size of NEEDED_IN_RIBBON) check(sizes.includes(size), icon.line, words.iconSizeMissing(size));
    for (const image of icon.children) {
      const size = image.attributes.get("size") ?? "";
      check(sizes.filter((other) => other === size).length === 1, image.line, words.iconSizeTwice(size));
      checkAddress(resourceValue(root, image.attributes.get("resid")), Number(size), image.line);
    }
  }
  for (const size of DRAWN) checkFile(`icon-${size}.png`, size, root.line);
}
