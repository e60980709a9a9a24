import { spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { bundle } from "./bundle.mjs";
import { inPath, thisMachine } from "./find-program.mjs";
import { stepper, Stop } from "./run.mjs";
import { listenHere, siteHandler } from "./serve.mjs";
import { ensurePackages, PROJECT } from "./setup.mjs";
import { words } from "./setup-words.mjs";

const USUAL_PORT = 3000;

/**
 * Takes the port first (so that a port in use is said before anything long begins), then installs and builds what is missing, serves
 * the page and opens it. ALGAL_SITE names a built folder to serve instead; nothing is installed or built then.
 * @param {string[]} given --port N, --no-open
 * @throws Stop with a sentence
 */
export async function startPage(given, env = process.env) {
  const { port, open } = readArguments(given);
  let site;
  const server = await takePort(siteHandler(() => site), port);
  stopOnSignal(server);
  site = env.ALGAL_SITE ? builtBefore(env.ALGAL_SITE) : await prepare();
  const address = `http://localhost:${server.port}`;
  console.log(words.serving(address));
  if (open && !(await openBrowser(address))) console.log(words.openByHand(address));
}

async function prepare() {
  const step = stepper(2);
  step(words.packages);
  await ensurePackages();
  step(words.building.site);
  await bundle("site");
  return path.join(PROJECT, "dist/site");
}

function builtBefore(folder) {
  const site = path.resolve(folder);
  if (!fs.existsSync(path.join(site, "index.html"))) throw new Stop(words.noPage(site));
  return site;
}

export function readArguments(given) {
  const chosen = { port: USUAL_PORT, open: true };
  for (let at = 0; at < given.length; at += 1) {
    const [name, joined] = given[at].split("=", 2);
    if (name === "--no-open") chosen.open = false;
    else if (name === "--port") chosen.port = readPort(joined ?? given[(at += 1)] ?? "");
    else throw new Stop(words.unknownOption(given[at], words.startUsage));
  }
  return chosen;
}

/** 0 asks the system for a free port. */
function readPort(written) {
  const port = Number(written);
  if (!/^\d{1,5}$/.test(written) || port > 65535) throw new Stop(words.portWrong(written));
  return port;
}

async function takePort(handler, port) {
  const other = port === USUAL_PORT || port >= 65535 ? USUAL_PORT + 1 : port + 1;
  try {
    return await listenHere(handler, port);
  } catch (error) {
    if (error.code === "EADDRINUSE") throw new Stop(words.portInUse(port, other));
    if (error.code === "EACCES") throw new Stop(words.portForbidden(port, other < 1024 ? USUAL_PORT + 1 : other));
    throw error;
  }
}

function stopOnSignal(server) {
  for (const signal of ["SIGINT", "SIGTERM"]) {
    process.once(signal, async () => {
      await server.close();
      console.log(words.stopped);
      process.exit(0);
    });
  }
}

/** Asks the system to open an address; false where there is nobody to ask (a server, a container). */
export async function openBrowser(address, machine = thisMachine()) {
  const { platform, env, exists } = machine;
  const [command, ...rest] = { darwin: ["open", address], win32: ["cmd", "/c", "start", '""', address] }[platform] ?? ["xdg-open", address];
  const hasScreen = platform !== "linux" || env.DISPLAY || env.WAYLAND_DISPLAY;
  if (!hasScreen || (platform === "linux" && !inPath(command, machine).some(exists))) return false;
  return new Promise((resolve) => {
    const child = spawn(command, rest, { stdio: "ignore", env });
    child.on("error", () => resolve(false));
    child.on("close", (code) => resolve(code === 0));
  });
}
