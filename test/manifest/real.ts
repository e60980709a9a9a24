import fs from "node:fs";
import path from "node:path";
import { checkManifest, type Surroundings } from "../../scripts/manifest/manifest";
import type { Report } from "../../scripts/manifest/report";

const root = path.join(__dirname, "../..");
export const manifest = fs.readFileSync(path.join(root, "manifest/manifest.xml"), "utf8");
export const functionsFile = path.join(root, "src/functions/generated/functions.json");
export const around: Surroundings = { file: "manifest.xml", icons: path.join(root, "manifest"), functions: functionsFile, version: "0.1.0" };

/** The real manifest with one passage replaced; a passage that is not there exactly once is a mistake of the test. */
export function changed(from: string, to: string, text: string = manifest): string {
  if (text.split(from).length !== 2) throw new Error(`"${from}" stands ${text.split(from).length - 1} times in the text.`);
  return text.replace(from, () => to);
}

/** The sentences that the check has for a manifest, each with its line as "12: sentence". */
export function sentences(source: string, differently: Partial<Surroundings> = {}): string[] {
  return report(source, differently).findings.map(({ line, sentence }) => `${line}: ${sentence}`);
}

export function report(source: string, differently: Partial<Surroundings> = {}): Report {
  return checkManifest(source, { ...around, ...differently });
}

/** The line in which a passage of the real manifest stands. */
export function lineOf(passage: string, text: string = manifest): number {
  return text.slice(0, text.indexOf(passage)).split("\n").length;
}
