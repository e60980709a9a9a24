import fs from "node:fs";
import path from "node:path";
import { runModule, scriptUrl, temporaryFolder } from "./scripts";

const root = temporaryFolder();

/** Runs the real jest, through our script, on a folder of small tests. */
async function runJest(name: string, files: Record<string, string>, given: string[] = []) {
  const folder = path.join(root, name);
  fs.mkdirSync(folder);
  fs.writeFileSync(path.join(folder, "package.json"), "{}");
  for (const [file, text] of Object.entries(files)) fs.writeFileSync(path.join(folder, file), text);
  const { shown, out, err } = await runModule(`
    import { runJest } from ${JSON.stringify(scriptUrl("test-run.mjs"))};
    show(await runJest(${JSON.stringify(given)}, process.env, ${JSON.stringify(folder)}));`);
  return { code: shown[0], lastLine: out.trim().split("\n").at(-1), out, err };
}

describe("the last line of npm test", () => {
  it("counts what passed, failed and was skipped, and the exit code is jest's", async () => {
    const mixed = await runJest("mixed", {
      "a.test.js": 'test("good", () => {}); test("also good", () => {}); test("bad", () => { throw new Error("no"); });',
      "b.test.js": 'test.skip("later", () => {}); test("good", () => {});',
    });
    expect(mixed).toMatchObject({ code: 1, lastLine: "3 passed, 1 failed, 1 skipped" });
    expect(mixed.err).toContain("Tests:       1 failed, 1 skipped, 3 passed, 5 total");
    expect(mixed.err.trim().split("\n").at(-1)).toBe("Ran all test suites.");
    expect(mixed.out + mixed.err).not.toContain("Test results written");
  });

  it("says nothing of skipped tests when there are none", async () => {
    expect(await runJest("good", { "a.test.js": 'test("good", () => {});' })).toMatchObject({ code: 0, lastLine: "1 passed, 0 failed" });
  });

  it("counts a test file that cannot be run as failed", async () => {
    const broken = await runJest("broken", { "a.test.js": 'test("good", () => {});', "b.test.js": "this is no JavaScript" });
    expect(broken).toMatchObject({ code: 1, lastLine: "1 passed, 1 failed" });
  });

  it("gives what follows the two dashes to jest", async () => {
    const files = { "a.test.js": 'test("good", () => {});', "b.test.js": 'test("bad", () => { throw new Error("no"); });' };
    expect(await runJest("chosen", files, ["a.test.js"])).toMatchObject({ code: 0, lastLine: "1 passed, 0 failed" });
  });

  it("owns up when the tests did not run at all", async () => {
    const wrong = await runJest("wrong", {}, ["--no-such-option"]);
    expect(wrong).toMatchObject({ code: 1, lastLine: "The tests did not run to their end, so there is no count." });
  });
});
