import fs from "node:fs";
import path from "node:path";
import { isAllowed, notice, shippedPackages } from "../../scripts/make-notice";

const root = path.join(__dirname, "../..");
const manifest = JSON.parse(fs.readFileSync(path.join(root, "package.json"), "utf8")) as { dependencies: Record<string, string>; devDependencies: Record<string, string> };

test("every package that ships has a licence that lets it", () => {
  const refused = shippedPackages().filter(({ licence }) => !isAllowed(licence));
  expect(refused).toEqual([]);
});

test("NOTICE lists exactly what ships", () => expect(fs.readFileSync(path.join(root, "NOTICE"), "utf8")).toBe(notice()));

test("every dependency is pinned to one version", () => {
  for (const version of Object.values({ ...manifest.dependencies, ...manifest.devDependencies })) expect(version).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/);
});

test("the lock file names no registry, and no install script runs", () => {
  const lock = fs.readFileSync(path.join(root, "package-lock.json"), "utf8");
  expect(lock).not.toMatch(/"resolved": "http/);
  expect(fs.readFileSync(path.join(root, ".npmrc"), "utf8")).toMatch(/^ignore-scripts=true$/m);
});

test.each([["MIT", true], ["(MIT OR GPL-3.0)", true], ["GPL-3.0-only", false], ["none stated", false], ["MIT AND ISC", true]])("%s: %p", (licence, allowed) => expect(isAllowed(licence)).toBe(allowed));
