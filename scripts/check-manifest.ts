import fs from "node:fs";
import path from "node:path";
import { setup } from "../src/words/setup";
import { checkManifest } from "./manifest/manifest";

/** `npm run check:manifest -- [file] [--site folder]`: every broken rule of the manifest on a line, and exit 1; or one line that all is well. */
const words = setup.manifest;
const root = path.join(__dirname, "..");

function run(given: readonly string[]): number {
  const { file, site, strange } = readArguments(given);
  if (strange) return refuse(words.unknownOption(strange));
  if (!fs.existsSync(file)) return refuse(words.noFile(shown(file)));
  if (site && !fs.existsSync(site)) return refuse(words.noFile(shown(site)));
  const { checks, findings } = checkManifest(fs.readFileSync(file, "utf8"), {
    file: shown(file),
    icons: path.join(root, "manifest"),
    functions: path.join(root, "src/functions/generated/functions.json"),
    site,
    version: (JSON.parse(fs.readFileSync(path.join(root, "package.json"), "utf8")) as { version: string }).version,
  });
  for (const finding of findings) console.error(words.at(finding.file, finding.line, finding.sentence));
  if (findings.length === 0) console.log(words.inOrder(checks));
  return findings.length === 0 ? 0 : 1;
}

function readArguments(given: readonly string[]): { file: string; site?: string; strange?: string } {
  let file = path.join(root, "manifest/manifest.xml");
  let site: string | undefined;
  for (let at = 0; at < given.length; at += 1) {
    const argument = given[at] ?? "";
    if (argument === "--site" && given[at + 1]) site = path.resolve(given[(at += 1)] ?? "");
    else if (argument.startsWith("-")) return { file, strange: argument };
    else file = path.resolve(argument);
  }
  return { file, site };
}

/** A file's name as short as it can be followed from here. */
function shown(file: string): string {
  const relative = path.relative(process.cwd(), file);
  return relative.startsWith("..") ? file : relative;
}

function refuse(sentence: string): number {
  console.error(sentence);
  return 1;
}

process.exitCode = run(process.argv.slice(2));
