import { spawn } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { bundle } from "./bundle.mjs";
import { npmCommand, run, stepper, Stop } from "./run.mjs";
import { ensureBrowser, ensureOffice, ensurePackages, PROJECT } from "./setup.mjs";
import { words } from "./setup-words.mjs";

/**
 * Sets up, builds, checks and tests, and says at each step what it is doing.
 * @param {string[]} jestArguments
 * @returns {Promise<number>} jest's exit code
 * @throws Stop with a sentence if a step before jest fails
 */
export async function runTests(jestArguments) {
  const step = stepper(8);
  step(words.packages);
  await ensurePackages();
  step(words.browser);
  const browser = await ensureBrowser();
  step(words.office);
  const office = await ensureOffice();
  step(words.building.site);
  await bundle("site");
  step(words.building.node);
  await bundle("node");
  step(words.testLint);
  await must([...npmCommand("npm"), "run", "-s", "lint"], words.testLintFailed);
  step(words.testManifest);
  await must([process.execPath, "scripts/ts.cjs", "scripts/check-manifest.ts", "--site", "dist/site"], words.testManifestFailed);
  step(words.testRun);
  return runJest(jestArguments, { ...process.env, CHROME_PATH: browser, CHROMIUM_PATH: browser, SOFFICE_PATH: office });
}

async function must(command, sentence) {
  const { code, output } = await run(command, { cwd: PROJECT, quiet: true });
  if (output.trim() !== "") console.log(output.trimEnd());
  if (code !== 0) throw new Stop(sentence);
}

/** Runs jest as the user would see it, then one plain line with the count. */
export async function runJest(jestArguments, env = process.env, root = PROJECT) {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-tests-"));
  const results = path.join(folder, "results.json");
  const jest = path.join(PROJECT, "node_modules/jest/bin/jest.js");
  const colours = process.stderr.isTTY && !env.NO_COLOR ? { FORCE_COLOR: "1" } : {};
  const code = await new Promise((resolve) => {
    const child = spawn(process.execPath, [jest, "--json", `--outputFile=${results}`, ...jestArguments], {
      cwd: root,
      env: { ...env, ...colours },
      stdio: ["inherit", "inherit", "pipe"],
    });
    passOn(child.stderr, (line) => !line.startsWith("Test results written to: "));
    child.on("close", (exit) => resolve(exit ?? 1));
  });
  console.log(closingLine(results));
  fs.rmSync(folder, { recursive: true, force: true });
  return code;
}

/** Shows what a program writes, line by line, but for the lines that are of no use to the user. */
function passOn(stream, wanted) {
  let rest = "";
  stream.setEncoding("utf8");
  stream.on("data", (text) => {
    const lines = (rest + text).split("\n");
    rest = lines.pop();
    process.stderr.write(lines.filter(wanted).map((line) => `${line}\n`).join(""));
  });
  stream.on("end", () => wanted(rest) && process.stderr.write(rest));
}

/** "N passed, N failed" from jest's own count. A test file that could not be run at all counts as one that failed. */
export function closingLine(results) {
  if (!fs.existsSync(results)) return words.testNotCounted;
  const { numPassedTests, numFailedTests, numRuntimeErrorTestSuites, numPendingTests, numTodoTests } = JSON.parse(fs.readFileSync(results, "utf8"));
  return words.testCount(numPassedTests, numFailedTests + numRuntimeErrorTestSuites, numPendingTests + numTodoTests);
}
