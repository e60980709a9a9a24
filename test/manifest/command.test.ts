import { spawnSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { changed } from "./real";

const root = path.join(__dirname, "../..");
const check = (...given: string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["scripts/ts.cjs", "scripts/check-manifest.ts", ...given], { cwd: root, encoding: "utf8" });
  return { status, stdout, stderr };
};

describe("npm run check:manifest", () => {
  it("says in one line that the real manifest is in order", () => {
    const { status, stdout, stderr } = check();
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toMatch(/^manifest is in order: \d+ checks\n$/);
  });

  it("prints each finding as one sentence with its file and line, and ends with 1", () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-check-"));
    const file = path.join(folder, "manifest.xml");
    fs.writeFileSync(file, changed(">ReadWriteDocument<", ">Restricted<", changed("<DefaultLocale>en-US</DefaultLocale>", "")));
    expect(check(file)).toEqual({
      status: 1,
      stdout: "",
      stderr: `${file} line 3: OfficeApp should hold DefaultLocale, and does not.\n${file} line 32: Permissions should be ReadWriteDocument, and is "Restricted".\n`,
    });
    fs.rmSync(folder, { recursive: true });
  });

  it("refuses a file that is not there and an option that it does not know", () => {
    expect(check("manifest/none.xml")).toEqual({ status: 1, stdout: "", stderr: "There is no file manifest/none.xml.\n" });
    expect(check("--fast")).toEqual({ status: 1, stdout: "", stderr: "--fast is not understood. Use: npm run check:manifest -- [manifest file] [--site built folder]\n" });
  });
});
