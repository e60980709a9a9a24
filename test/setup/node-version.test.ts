import fs from "node:fs";
import path from "node:path";
import { runModule, runScript, scriptUrl, temporaryFolder } from "./scripts";

const folder = temporaryFolder();
const asOldNode = path.join(folder, "as-old-node.cjs");
fs.writeFileSync(asOldNode, 'Object.defineProperty(process, "versions", { value: { ...process.versions, node: "18.20.4" } });\n');

describe("an old Node", () => {
  it.each(["start.mjs", "test.mjs", "sideload.mjs"])("is named by %s before anything else is done", async (script) => {
    expect(await runScript(script, [], {}, ["--require", asOldNode])).toEqual({
      code: 1,
      out: "",
      err: "Algal Ledger needs Node 20 or newer, and this is Node 18.20.4. Get a newer one from https://nodejs.org and try again.\n",
    });
  });

  it("is one before 20", async () => {
    const { shown } = await runModule(`
      import { nodeTooOld } from ${JSON.stringify(scriptUrl("node-check.mjs"))};
      show(["8.17.0", "19.9.0", "20.0.0", "24.1.0"].map((version) => nodeTooOld(version) !== undefined));`);
    expect(shown).toEqual([[true, true, false, false]]);
  });
});
