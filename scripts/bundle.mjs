import { createHash } from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { run, Stop } from "./run.mjs";
import { PROJECT } from "./setup.mjs";
import { words } from "./setup-words.mjs";

/** The two builds of webpack.config.js: the folder that a web server hands out, and the command line. */
const RESULT = { site: "dist/site/index.html", node: "dist/node/ledger.cjs" };
const SOURCES = ["src", "manifest", "samples", "webpack.config.js", "tsconfig.json", "package-lock.json"];

/**
 * Builds one of the two unless it stands and no source has changed since. Sources are compared by content, because a fresh clone or a
 * change of branch gives every file the time of now.
 * @param {"site" | "node"} name
 * @throws Stop if the build fails
 */
export async function bundle(name, root = PROJECT) {
  const mark = path.join(root, `dist/${name}.built`);
  const sources = fingerprint(root);
  if (fs.existsSync(path.join(root, RESULT[name])) && fs.existsSync(mark) && fs.readFileSync(mark, "utf8") === sources) {
    console.log(words.builtBefore);
    return;
  }
  console.log(words.buildTakes);
  const began = Date.now();
  fs.rmSync(mark, { force: true });
  const webpack = [process.execPath, path.join(root, "node_modules/webpack/bin/webpack.js"), "--config-name", name];
  const { code, output } = await run(webpack, { cwd: root, quiet: true });
  if (code !== 0 || output.includes("WARNING")) console.error(output);
  if (code !== 0) throw new Stop(words.buildFailed);
  fs.writeFileSync(mark, sources);
  console.log(words.took(Math.round((Date.now() - began) / 1000)));
}

/** One number for the names and contents of all sources. */
export function fingerprint(root) {
  const hash = createHash("sha256");
  const add = (relative) => {
    const file = path.join(root, relative);
    if (!fs.existsSync(file)) return;
    if (fs.statSync(file).isDirectory()) {
      for (const name of fs.readdirSync(file).sort()) add(`${relative}/${name}`);
      return;
    }
    const bytes = fs.readFileSync(file);
    hash.update(`${relative} ${bytes.length}\n`).update(bytes);
  };
  SOURCES.forEach(add);
  return hash.digest("hex");
}
