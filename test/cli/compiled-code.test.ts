import { spawnSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { buildOnce, temporaryFolder } from "./run";

/** The program's compiled code, which is kept beside it from the first run on. */
let place: ReturnType<typeof temporaryFolder>;

beforeAll(() => {
  buildOnce();
  place = temporaryFolder();
  const built = path.join(__dirname, "../../dist/node");
  for (const name of fs.readdirSync(built)) if (name.endsWith(".cjs")) fs.copyFileSync(path.join(built, name), place.at(name));
});
afterAll(() => place.remove());

const answer = (): string => {
  const { stdout, stderr } = spawnSync(process.execPath, [place.at("ledger.cjs"), "formula", "=ALGAL.LIGHT_DAILY(270,14)+SUM(1,2)"], { encoding: "utf8" });
  return stdout + stderr;
};
const kept = (): string[] => fs.readdirSync(place.folder).filter((name) => name.endsWith(".code"));

test("the first run keeps it, the next ones use it, and the answer is the same", () => {
  expect([kept().length, answer(), kept().length]).toEqual([0, "16.608\n", 2]);
  const written = kept().map((name) => fs.statSync(place.at(name)).mtimeMs);
  expect(answer()).toBe("16.608\n");
  expect(kept().map((name) => fs.statSync(place.at(name)).mtimeMs)).toEqual(written);
});

test("what is no compiled code is passed over and made again", () => {
  const [name = ""] = kept();
  fs.writeFileSync(place.at(name), "nothing of the kind");
  expect(answer()).toBe("16.608\n");
  expect(fs.statSync(place.at(name)).size).toBeGreaterThan(100_000);
});

test("that of another build is not taken", () => {
  const [before] = [kept()];
  for (const name of fs.readdirSync(place.folder)) if (name.startsWith("src_cli_ledger") && name.endsWith(".cjs")) fs.appendFileSync(place.at(name), "\n");
  expect([answer(), kept().length]).toEqual(["16.608\n", before.length + 1]);
});

test("where it cannot be kept, the program runs all the same", () => {
  for (const name of kept()) {
    fs.rmSync(place.at(name));
    fs.mkdirSync(place.at(name));
  }
  expect(answer()).toBe("16.608\n");
  expect(fs.readdirSync(place.folder).filter((name) => /\.code\.\d+$/.test(name))).toEqual([]);
});
