import fs from "node:fs";
import path from "node:path";
import metadata from "../src/functions/generated/functions.json";
import { CONSTANTS } from "../src/science/constants/all";
import { FOODS } from "../src/science/constants/foods";
import { SOURCES } from "../src/science/constants/sources";

/** Prints every word that a user can see, room by room, so that they can be read in one sitting: `npm run -s words`. */
const root = path.join(__dirname, "..");
const line = (key: string, text: string): void => console.log(`  ${key}: ${text}`);

/** A sentence with gaps is shown as its template; the names of the gaps say what goes in. */
function asText(value: unknown): string {
  if (typeof value !== "function") return String(value);
  return value.toString().replace(/\s+/g, " ").replace(/^\(?.*?\)?\s*=>\s*/, "");
}

function walk(prefix: string, value: unknown): void {
  if (value && typeof value === "object") for (const [key, inner] of Object.entries(value)) walk(prefix ? `${prefix}.${key}` : key, inner);
  else line(prefix, asText(value));
}

for (const file of fs.readdirSync(path.join(root, "src/words")).sort()) {
  console.log(`\n${file.replace(/\.ts$/, "")}`);
  for (const [name, value] of Object.entries(require(path.join(root, "src/words", file)) as object)) walk(name, value);
}

console.log("\nfunctions (from their JSDoc)");
for (const one of metadata.functions) {
  line(`ALGAL.${one.id}`, one.description);
  for (const parameter of one.parameters) line(`  ${parameter.name}${"optional" in parameter ? " (optional)" : ""}`, parameter.description);
}

console.log("\nconstants");
for (const constant of CONSTANTS) {
  line(constant.name, `${constant.value} (${constant.low} to ${constant.high}) ${constant.unit}; ${constant.mark}${"note" in constant ? `; ${constant.note}` : ""}`);
}
console.log("\nfoods");
for (const food of FOODS) line(food.name, `${food.locator}; ${food.proteinMark} / ${food.phosphorusMark}`);
console.log("\nsources");
for (const [key, { citation }] of Object.entries(SOURCES)) line(key, citation);
