import fs from "node:fs";
import path from "node:path";
import { setup } from "../src/words/setup";
import { writeRebased } from "./manifest/rebase";

/** Puts the manifest into the built site, for the address where the site is going to stand: `[--base https://host/path/]`. */
const root = path.join(__dirname, "..");
const site = path.join(root, "dist/site");
const base = process.argv[2] === "--base" ? process.argv[3] ?? "" : "https://localhost:3000/";

try {
  const source = fs.readFileSync(path.join(root, "manifest/manifest.xml"), "utf8");
  // From the committed metadata each time, so that a second base does not start from the first.
  fs.copyFileSync(path.join(root, "src/functions/generated/functions.json"), path.join(site, "functions.json"));
  writeRebased(source, base, path.join(site, "manifest.xml"), {
    file: "dist/site/manifest.xml",
    icons: path.join(root, "manifest"),
    functions: path.join(root, "src/functions/generated/functions.json"),
    site,
  });
  console.log(setup.manifest.placed("dist/site", base));
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
