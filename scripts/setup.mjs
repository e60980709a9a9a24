import { createHash } from "node:crypto";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { findProgram, inPath, PROGRAMS, thisMachine } from "./find-program.mjs";
import { npmCommand, run, Stop } from "./run.mjs";
import { words } from "./setup-words.mjs";

export const PROJECT = path.join(path.dirname(fileURLToPath(import.meta.url)), "..");
const NETWORK_CODES = /\b(ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|ENETUNREACH|EHOSTUNREACH|ERR_SOCKET_TIMEOUT)\b/;
const APT_NETWORK = /Temporary failure resolving|Could not connect|Could not resolve|Network is unreachable|Unable to fetch|Failed to fetch/;

/**
 * Installs the packages of package-lock.json unless node_modules already holds them. A mark in node_modules says for which lock file
 * it was filled, so that a pull that changes the lock file is noticed; a node_modules that npm itself filled is compared entry by entry.
 * @throws Stop with a sentence: no network, npm failed, not the project's folder
 */
export async function ensurePackages({ root = PROJECT, env = process.env } = {}) {
  const lockFile = path.join(root, "package-lock.json");
  if (!fs.existsSync(lockFile)) throw new Stop(words.notTheProject(root));
  const lockText = fs.readFileSync(lockFile);
  const hash = createHash("sha256").update(lockText).digest("hex");
  const mark = path.join(root, "node_modules/.algal-lock");
  const wanted = readPackages(lockText.toString());
  if (readIfThere(mark) !== hash) {
    if (!isFilledFor(wanted, path.join(root, "node_modules/.package-lock.json"))) await installPackages(root, env, Math.max(0, Object.keys(wanted).length - 1));
    fs.writeFileSync(mark, hash);
  }
  console.log(words.packagesInPlace);
}

/** A browser that the tests can drive; installed on Debian and Ubuntu when run as root. @returns its program file @throws Stop */
export const ensureBrowser = (machine) => ensureProgram("browser", machine);

/** LibreOffice, as ensureBrowser. */
export const ensureOffice = (machine) => ensureProgram("office", machine);

async function ensureProgram(kind, machine = { ...thisMachine(), run }) {
  const look = async () => {
    const { place, wrong } = findProgram(kind, machine);
    if (wrong) throw new Stop(words.variableWrong(wrong.variable, wrong.value));
    return place && (await answers(place, machine)) ? place : undefined;
  };
  let place = await look();
  const hasApt = machine.platform === "linux" && inPath("apt-get", machine).some(machine.exists);
  if (!place && hasApt && machine.isRoot) {
    await installDebian(PROGRAMS[kind].debian, machine);
    place = await look();
  }
  if (!place) throw new Stop(words[`${kind}Missing`][machine.platform] ?? words[`${kind}Missing`].linux);
  console.log(words.found(place));
  return place;
}

/** Ubuntu has a chromium-browser that only asks for another package. Elsewhere a window could open, so nothing is asked there. */
async function answers(place, { platform, run: runIt }) {
  if (platform !== "linux") return true;
  const { code } = await runIt([place, "--version"], { quiet: true });
  return code === 0;
}

async function installDebian(names, { env, run: runIt }) {
  const quietly = { env: { ...env, DEBIAN_FRONTEND: "noninteractive" }, quiet: true };
  console.log(words.installing(names.join(" ")));
  for (const command of [["apt-get", "update"], ["apt-get", "install", "-y", "--no-install-recommends", ...names]]) {
    const { code, output } = await runIt(command, quietly);
    if (code === 0) continue;
    if (APT_NETWORK.test(output)) throw new Stop(words.noNetwork(names.join(" ")));
    console.error(output);
    throw new Stop(words.aptFailed(names.join(" ")));
  }
}

async function installPackages(root, env, count) {
  console.log(words.installingPackages(count));
  const began = Date.now();
  // npm would wait a minute and more between its attempts.
  const patience = ["--fetch-retry-mintimeout=2000", "--fetch-retry-maxtimeout=10000"];
  const { code, output } = await run([...npmCommand("npm", env), "ci", "--no-audit", "--no-fund", ...patience], { cwd: root, env, quiet: true });
  if (code !== 0 && NETWORK_CODES.test(output)) throw new Stop(words.noNetwork(words.packagesAreWanted));
  if (code !== 0) {
    console.error(output);
    throw new Stop(words.npmFailed(code));
  }
  console.log(words.took(Math.round((Date.now() - began) / 1000)));
}

/** The entries of a lock file; none if it cannot be read, which npm will then say. */
function readPackages(text) {
  try {
    return JSON.parse(text).packages ?? {};
  } catch {
    return {};
  }
}

/** Whether npm's own note of what it installed names every package of the lock file in its version; optional ones may be absent. */
function isFilledFor(wanted, noteFile) {
  const installed = readPackages(readIfThere(noteFile) ?? "");
  const entries = Object.entries(wanted).filter(([name]) => name !== "");
  return entries.length > 0 && entries.every(([name, { version, optional }]) => (installed[name] ? installed[name].version === version : optional));
}

function readIfThere(file) {
  return fs.existsSync(file) ? fs.readFileSync(file, "utf8") : undefined;
}
