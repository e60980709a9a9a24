import { createHash } from "node:crypto";
import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { runModule, scriptUrl, temporaryFolder } from "./scripts";

const root = path.join(__dirname, "../..");
const lockText = fs.readFileSync(path.join(root, "package-lock.json"), "utf8");
const hash = createHash("sha256").update(lockText).digest("hex");

/** A copy of the package files whose npm may only ask a port of this machine on which nobody listens. */
async function packageCopy(): Promise<string> {
  const folder = fs.mkdtempSync(path.join(parent, "copy-"));
  for (const name of ["package.json", "package-lock.json"]) fs.copyFileSync(path.join(root, name), path.join(folder, name));
  const settings = [`registry=http://127.0.0.1:${await closedPort()}/`, "fetch-retries=0", `cache=${path.join(folder, "cache")}`, "update-notifier=false", "ignore-scripts=true"];
  fs.writeFileSync(path.join(folder, ".npmrc"), settings.join("\n"));
  return folder;
}

const parent = temporaryFolder();

/** Small package files, for the sake of speed: saxes and the one package that it needs. */
function keepOnlySaxes(folder: string): void {
  const { packages } = JSON.parse(lockText) as { packages: Record<string, { version: string }> };
  const dependencies = { saxes: packages["node_modules/saxes"]?.version };
  const kept = { "": { name: "small", version: "1.0.0", dependencies }, "node_modules/saxes": packages["node_modules/saxes"], "node_modules/xmlchars": packages["node_modules/xmlchars"] };
  fs.writeFileSync(path.join(folder, "package.json"), JSON.stringify({ name: "small", version: "1.0.0", dependencies }));
  fs.writeFileSync(path.join(folder, "package-lock.json"), JSON.stringify({ name: "small", version: "1.0.0", lockfileVersion: 3, requires: true, packages: kept }));
}

function closedPort(): Promise<number> {
  return new Promise((resolve) => {
    const server = net.createServer().listen(0, "127.0.0.1", () => {
      const { port } = server.address() as net.AddressInfo;
      server.close(() => resolve(port));
    });
  });
}

function ensurePackages(folder: string) {
  return runModule(`
    import { ensurePackages } from ${JSON.stringify(scriptUrl("setup.mjs"))};
    try { await ensurePackages({ root: ${JSON.stringify(folder)} }); show("filled"); } catch (error) { show(error.name + ": " + error.message); }`);
}

const NO_NETWORK =
  "Stop: The packages could not be fetched because the network does not answer. Connect to the internet (or set npm's registry or proxy) and run the same command again.";

describe("the packages", () => {
  it("are left alone when node_modules was filled for this lock file", async () => {
    const folder = await packageCopy();
    fs.mkdirSync(path.join(folder, "node_modules"));
    fs.writeFileSync(path.join(folder, "node_modules/.algal-lock"), hash);
    expect(await ensurePackages(folder)).toMatchObject({ shown: ["filled"], out: "      in place\n" });
  });

  it("are left alone, and marked, when npm itself installed what the lock file says", async () => {
    const folder = await packageCopy();
    fs.mkdirSync(path.join(folder, "node_modules"));
    const { packages } = JSON.parse(lockText) as { packages: Record<string, { version: string; optional?: boolean }> };
    const installed = Object.fromEntries(Object.entries(packages).filter(([name, { optional }]) => name !== "" && !optional));
    fs.writeFileSync(path.join(folder, "node_modules/.package-lock.json"), JSON.stringify({ packages: installed }));
    expect((await ensurePackages(folder)).shown).toEqual(["filled"]);
    expect(fs.readFileSync(path.join(folder, "node_modules/.algal-lock"), "utf8")).toBe(hash);
  });

  it("are fetched again when the lock file has changed, and without a network one sentence says so", async () => {
    const folder = await packageCopy();
    keepOnlySaxes(folder);
    fs.mkdirSync(path.join(folder, "node_modules"));
    fs.writeFileSync(path.join(folder, "node_modules/.algal-lock"), "another lock file");
    const { shown, out, err } = await ensurePackages(folder);
    expect(shown).toEqual([NO_NETWORK]);
    expect(out).toMatch(/^ {6}installing 2 packages into node_modules, and nowhere else: 1 to 3 minutes the first time\n$/);
    expect(err).toBe("");
  });

  it("are asked for, and without a network one sentence says so, on a fresh clone", async () => {
    const folder = await packageCopy();
    expect((await ensurePackages(folder)).shown).toEqual([NO_NETWORK]);
    expect(fs.existsSync(path.join(folder, "node_modules/.algal-lock"))).toBe(false);
  });

  it("are not looked for outside the project", async () => {
    expect((await ensurePackages(parent)).shown).toEqual([`Stop: There is no package-lock.json in ${parent}: run this in the folder of Algal Ledger.`]);
  });

  it("are not installed when npm itself fails: its words are shown, and one sentence", async () => {
    const folder = await packageCopy();
    fs.writeFileSync(path.join(folder, "package.json"), "{ no JSON");
    const { shown, err } = await ensurePackages(folder);
    expect(shown).toEqual(['Stop: npm could not install the packages (exit code 1); its own words are above. Run "npm ci" to see it again.']);
    expect(err).toContain("EJSONPARSE");
  });
});
