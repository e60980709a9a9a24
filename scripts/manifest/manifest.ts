import fs from "node:fs";
import path from "node:path";
import { setup } from "../../src/words/setup";
import { baseOf, checkAddresses, checkSharedRuntime } from "./addresses";
import { type Element, everyElement, find, readXml } from "./element";
import { checkFunctions } from "./functions";
import { checkIcons } from "./icons";
import { type Check, openReport, type Report } from "./report";
import { checkResources, resourceValue } from "./resources";
import { manifestSchema } from "./schema";
import { checkStructure } from "./structure";

const words = setup.manifest;
const NEEDED_SETS = [["CustomFunctionsRuntime", "1.1"], ["SharedRuntime", "1.1"], ["ExcelApi", "1.1"]] as const;

export interface Surroundings {
  /** The manifest's name for the sentences. */
  readonly file: string;
  /** Folder of the icons. */
  readonly icons: string;
  /** The generated functions.json; used when no built folder has one. */
  readonly functions: string;
  /** The built folder: if given, every address of the manifest has to be a file in it. */
  readonly site?: string;
  /** Version of the package, "0.1.0". */
  readonly version?: string;
}

/**
 * Holds a manifest against the rules that Excel applies when it loads it, without a network.
 * @param source the manifest's text
 * @returns every broken rule as one sentence with its file and line, and the number of checks made
 */
export function checkManifest(source: string, around: Surroundings): Report {
  const { report, checkIn } = openReport();
  const check = checkIn(around.file);
  const { root, faults } = readXml(source);
  // What a parser says after the first fault follows from it.
  const fault = faults[0];
  check(!fault, fault?.line ?? 1, words.notWellFormed(fault?.message ?? ""));
  if (!root) return report();
  if (!check(root.name === manifestSchema.name, root.line, words.wrongRoot(root.name))) return report();
  checkStructure(root, manifestSchema, check);
  checkResources(root, check);
  checkAddresses(root, around.site, check);
  checkSharedRuntime(root, check);
  checkSets(root, check);
  checkNamespace(root, check);
  checkVersion(root, around.version, check);
  checkIcons(root, around.icons, check);
  checkMetadata(root, around, check, checkIn);
  return report();
}

function checkSets(root: Element, check: Check): void {
  const sets = find(root, "Requirements", "Sets");
  for (const [name, version] of NEEDED_SETS) {
    const asked = sets?.children.find((set) => set.attributes.get("Name") === name)?.attributes.get("MinVersion");
    check(asked !== undefined && isAtLeast(asked, version), sets?.line ?? root.line, words.setMissing(name, version));
  }
}

function isAtLeast(version: string, floor: string): boolean {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  const [floorMajor = 0, floorMinor = 0] = floor.split(".").map(Number);
  return major > floorMajor || (major === floorMajor && minor >= floorMinor);
}

function checkNamespace(root: Element, check: Check): void {
  const namespace = [...everyElement(root)].find(({ name }) => name === "ov:Namespace");
  const value = resourceValue(root, namespace?.attributes.get("resid"));
  if (namespace && value !== undefined) check(/^[A-Z]{2,32}$/.test(value), namespace.line, words.namespaceForm(value));
}

function checkVersion(root: Element, version: string | undefined, check: Check): void {
  const element = find(root, "Version");
  if (element && version) check(element.text === `${version}.0`, element.line, words.versionDiffers(element.text, version));
}

function checkMetadata(root: Element, around: Surroundings, check: Check, checkIn: (file: string) => Check): void {
  const location = [...everyElement(root)].find(({ name }) => name === "ov:Metadata")?.children[0];
  const address = resourceValue(root, location?.attributes.get("resid"));
  const base = baseOf(root);
  if (!location || !address || base === undefined || !address.startsWith(base)) return;
  const name = address.slice(base.length);
  const built = around.site ? path.join(around.site, name) : undefined;
  const generated = path.basename(around.functions) === name ? around.functions : undefined;
  const file = [built, generated].find((candidate) => candidate !== undefined && fs.existsSync(candidate));
  if (!check(file !== undefined, location.line, words.noMetadata(name)) || !file) return;
  checkFunctions(fs.readFileSync(file, "utf8"), base, checkIn(path.relative(process.cwd(), file)));
}


