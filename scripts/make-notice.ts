import fs from "node:fs";
import path from "node:path";

/** Lists the packages of others that are built into the shipped files, with their licences: `npm run notice`. */
const root = path.join(__dirname, "..");

/** Licences that let a package be shipped with ours. */
const ALLOWED = new Set(["MIT", "Apache-2.0", "ISC", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "BlueOak-1.0.0", "Unlicense", "CC0-1.0", "MIT-0", "Python-2.0"]);
/** Ours to choose, where a package offers several. */
const CHOICE = /^\(?(.+?) OR (.+?)\)?$/;

interface Packed {
  name: string;
  version: string;
  licence: string;
}

/** Every package that is needed at run time (those of the lock file that are not for development only). */
export function shippedPackages(): Packed[] {
  const lock = JSON.parse(fs.readFileSync(path.join(root, "package-lock.json"), "utf8")) as { packages: Record<string, { dev?: boolean; optional?: boolean; version?: string }> };
  const found = new Map<string, Packed>();
  for (const [place, { dev }] of Object.entries(lock.packages)) {
    if (place === "" || dev) continue;
    const file = path.join(root, place, "package.json");
    if (!fs.existsSync(file)) continue;
    const { name, version, license } = JSON.parse(fs.readFileSync(file, "utf8")) as { name: string; version: string; license?: string | { type: string } };
    const licence = typeof license === "string" ? license : license?.type ?? licenceInFile(path.join(root, place));
    found.set(`${name}@${version}`, { name, version, licence });
  }
  return [...found.values()].sort((a, b) => a.name.localeCompare(b.name) || a.version.localeCompare(b.version));
}

/** Where package.json is silent, the licence file that comes with the package decides. */
function licenceInFile(folder: string): string {
  const file = path.join(folder, "LICENSE");
  const head = fs.existsSync(file) ? fs.readFileSync(file, "utf8").slice(0, 200).replace(/\s+/g, " ") : "";
  return /Apache License Version 2\.0/.test(head) ? "Apache-2.0" : "none stated";
}

export const isAllowed = (licence: string): boolean => {
  const choice = CHOICE.exec(licence);
  return choice ? isAllowed(choice[1] ?? "") || isAllowed(choice[2] ?? "") : licence.split(" AND ").every((one) => ALLOWED.has(one.trim()));
};

export function notice(): string {
  const packages = shippedPackages();
  return [
    "Algal Ledger",
    "Copyright (c) 2026 The Algal Ledger authors. MIT licence, see LICENSE.",
    "",
    "Data: food rows from the USDA National Nutrient Database for Standard Reference, Release 26 (public domain).",
    "",
    "Parts of others that are built into the local page, the task pane or the command line, each under its own licence:",
    "",
    ...packages.map(({ name, version, licence }) => `${name} ${version}: ${licence}`),
    "",
  ].join("\n");
}

if (process.argv[1]?.endsWith("make-notice.ts")) {
  fs.writeFileSync(path.join(root, "NOTICE"), notice());
  console.log(`NOTICE: ${shippedPackages().length} packages`);
}
