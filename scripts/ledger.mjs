import { createRequire } from "node:module";
import fs from "node:fs";
import path from "node:path";
import { fingerprint } from "./bundle.mjs";
import { run, Stop } from "./run.mjs";
import { ensurePackages, PROJECT } from "./setup.mjs";
import { words } from "./setup-words.mjs";

/**
 * The command line: `node scripts/ledger.mjs formula '=ALGAL...'`. Builds it first where it is missing or a source has changed.
 * Standard output belongs to the command alone, so everything about building goes to standard error.
 */
console.log = console.error;

const folder = path.join(PROJECT, "dist/node");
const program = path.join(folder, "ledger.cjs");
const mark = path.join(PROJECT, "dist/node.built");
const webpack = path.join(PROJECT, "node_modules/webpack/bin/webpack.js");

async function build(sources) {
  if (!fs.existsSync(webpack)) await ensurePackages();
  console.error(words.building.node);
  // Into a folder of its own: another command may be running from the old one, or building too.
  const beside = `dist/.node-${process.pid}`;
  try {
    const { code, output } = await run([process.execPath, webpack, "--config-name", "node", "--env", `node=${beside}`], { cwd: PROJECT, quiet: true });
    if (code !== 0) {
      console.error(output);
      throw new Stop(words.buildFailed);
    }
    fs.rmSync(mark, { force: true });
    fs.rmSync(folder, { recursive: true, force: true });
    fs.renameSync(path.join(PROJECT, beside), folder);
    fs.writeFileSync(mark, sources);
  } catch (error) {
    // Two that finish together: the other one's result is as good.
    if (error instanceof Stop || !fs.existsSync(program)) throw error;
  } finally {
    fs.rmSync(path.join(PROJECT, beside), { recursive: true, force: true });
  }
}

try {
  const sources = fingerprint(PROJECT);
  const isBuilt = fs.existsSync(program) && fs.existsSync(mark) && fs.readFileSync(mark, "utf8") === sources;
  if (!isBuilt) await build(sources);
  createRequire(import.meta.url)(program);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
