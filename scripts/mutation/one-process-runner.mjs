import fs from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { declareClassPlugin, PluginKind } from "@stryker-mutator/api/plugin";
import { determineHitLimitReached, DryRunStatus, TestStatus, toMutantRunResult } from "@stryker-mutator/api/test-runner";

/**
 * A test runner for mutation testing: the jest tests of src/science in one process that keeps the compiled modules.
 *
 * jest loads every test file afresh for each of some thousand mutants, which takes a working day on two cores; most of these tests
 * run in under a millisecond once loaded. `expect` and `.each` are jest's own, so a test means here what it means in `npm test`.
 * A mutant counts as killed only if the test that failed passes again without it, in modules loaded afresh if need be.
 */
class OneProcessRunner {
  static inject = [];
  #root = process.cwd();
  #require = createRequire(path.join(process.cwd(), "package.json"));
  #compiled = new Map();
  #tests = [];
  /** Milliseconds each test took in the first run without a mutant, by its name. */
  #took = {};
  #stryker = (globalThis.__stryker__ ??= {});

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    this.#compileTypeScript();
    this.#offerJestNames();
  }

  async dryRun() {
    this.#stryker.mutantCoverage = { static: {}, perTest: {} };
    this.#load();
    const results = [];
    for (const test of this.#tests) {
      this.#stryker.currentTestId = test.id;
      const from = process.hrtime.bigint();
      const failure = await outcome(test);
      const timeSpentMs = Number(process.hrtime.bigint() - from) / 1e6;
      this.#stryker.currentTestId = undefined;
      this.#took[test.id] = timeSpentMs;
      const found = { id: test.id, name: test.id, fileName: test.fileName, timeSpentMs };
      if (failure !== undefined) results.push({ ...found, status: TestStatus.Failed, failureMessage: failure });
      else if (timeSpentMs > LONGEST_TEST_MS) { results.push({ ...found, status: TestStatus.Skipped }); delete this.#stryker.mutantCoverage.perTest[test.id]; }
      else results.push({ ...found, status: TestStatus.Success });
    }
    const mutantCoverage = this.#stryker.mutantCoverage;
    this.#stryker.mutantCoverage = undefined;
    fs.writeFileSync(TIMES_FILE, JSON.stringify(this.#took));
    return { status: DryRunStatus.Complete, tests: results, mutantCoverage };
  }

  async mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation, reloadEnvironment }) {
    if (fs.existsSync(TIMES_FILE)) this.#took = JSON.parse(fs.readFileSync(TIMES_FILE, "utf8"));
    const atLoad = mutantActivation === "static" || reloadEnvironment;
    this.#stryker.mutantCoverage = undefined;
    this.#stryker.hitLimit = hitLimit;
    this.#stryker.hitCount = hitLimit === undefined ? undefined : 0;
    if (this.#tests.length === 0 && !atLoad) this.#load();
    let results;
    try {
      this.#stryker.activeMutant = activeMutant.id;
      if (atLoad) this.#reload();
      results = await this.#untilFailure(testFilter);
    } catch (error) {
      results = [failed("loading the tests", error)];
    } finally {
      this.#stryker.activeMutant = undefined;
    }
    if (atLoad) this.#reload();
    const limit = determineHitLimitReached(this.#stryker.hitCount, hitLimit);
    if (limit) return toMutantRunResult(limit, true);
    const last = results.at(-1);
    if (last?.status === TestStatus.Failed && last.id !== "loading the tests" && !await this.#passesWithout(last.id)) return this.mutantRun({ activeMutant, testFilter, hitLimit, mutantActivation, reloadEnvironment: true });
    return toMutantRunResult({ status: DryRunStatus.Complete, tests: results }, true);
  }

  /** Tests that a mutant left in a state of their own are loaded afresh; false if that was needed. */
  async #passesWithout(id) {
    this.#stryker.hitCount = undefined;
    const test = this.#tests.find(one => one.id === id);
    if (await outcome(test) === undefined) return true;
    this.#reload();
    const again = this.#tests.find(one => one.id === id);
    if (await outcome(again) !== undefined) throw new Error(`${id} fails without a mutant.`);
    return false;
  }

  async #untilFailure(testFilter) {
    const wanted = testFilter && new Set(testFilter);
    const tests = this.#tests.filter(test => (wanted ? wanted.has(test.id) : (this.#took[test.id] ?? 0) <= LONGEST_TEST_MS));
    tests.sort((a, b) => (this.#took[a.id] ?? 0) - (this.#took[b.id] ?? 0));
    const results = [];
    for (const test of tests) {
      const failure = await outcome(test);
      results.push({ id: test.id, name: test.id, timeSpentMs: 0, ...(failure === undefined ? { status: TestStatus.Success } : { status: TestStatus.Failed, failureMessage: failure }) });
      if (failure !== undefined) break;
    }
    return results;
  }

  #load() {
    this.#tests = [];
    this.#require(path.join(this.#root, "test/seed.ts"));
    for (const fileName of testFiles(this.#root)) {
      this.#fileName = fileName;
      this.#names = [path.relative(this.#root, fileName)];
      this.#before = [];
      this.#require(fileName);
    }
  }

  #reload() {
    for (const file of Object.keys(this.#require.cache)) if (file.startsWith(path.join(this.#root, "src")) || file.startsWith(path.join(this.#root, "test"))) delete this.#require.cache[file];
    this.#load();
  }

  #fileName = "";
  #names = [];
  #before = [];

  #offerJestNames() {
    const each = this.#require("jest-each").bind;
    const seen = new Map();
    const describe = (name, body) => {
      this.#names.push(name);
      const before = this.#before;
      this.#before = [...before];
      try { body(); } finally { this.#names.pop(); this.#before = before; }
    };
    const test = (name, body) => {
      if (this.#tests.length === 0) seen.clear();
      const plain = [...this.#names, name].join(" > ");
      const nth = (seen.get(plain) ?? 0) + 1;
      seen.set(plain, nth);
      this.#tests.push({ id: nth === 1 ? plain : `${plain} (${nth})`, fileName: this.#fileName, body, before: this.#before });
    };
    test.each = each(test, false);
    describe.each = each(describe, false);
    const beforeAll = body => {
      let ready;
      this.#before.push(() => (ready ??= body()));
    };
    Object.assign(globalThis, { describe, test, it: test, beforeAll, expect: this.#require("expect").expect });
  }

  #compileTypeScript() {
    const ts = this.#require("typescript");
    const compilerOptions = { module: ts.ModuleKind.CommonJS, target: ts.ScriptTarget.ES2022, jsx: ts.JsxEmit.ReactJSX, esModuleInterop: true, resolveJsonModule: true };
    this.#require.extensions[".ts"] = (module, file) => {
      if (!this.#compiled.has(file)) this.#compiled.set(file, ts.transpileModule(fs.readFileSync(file, "utf8"), { compilerOptions, fileName: file }).outputText);
      module._compile(this.#compiled.get(file), file);
    };
  }
}

/** Slower tests draw hundreds of random logs; the same code is reached by figures from outside and by hand. */
const LONGEST_TEST_MS = 1500;
const TIMES_FILE = "times-of-tests.json";
const FOLDERS = ["test/science", "test/published", "test/functions"];
const LEFT_OUT = /test\/science\/(invariants\/|reconciled-budget)/;

function testFiles(root) {
  return FOLDERS.flatMap(folder => fs.readdirSync(path.join(root, folder), { recursive: true }).map(name => path.join(root, folder, name)))
    .filter(file => file.endsWith(".test.ts") && !LEFT_OUT.test(file))
    .sort();
}

/** Undefined when the test passes, else what it said. */
async function outcome(test) {
  try {
    for (const before of test.before) await before();
    await test.body();
    return undefined;
  } catch (error) {
    return String(error?.message ?? error);
  }
}

const failed = (id, error) => ({ id, name: id, timeSpentMs: 0, status: TestStatus.Failed, failureMessage: String(error?.message ?? error) });

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, "one-process", OneProcessRunner)];
