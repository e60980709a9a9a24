import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { bundle } from "./bundle.mjs";
import { npmCommand, run, stepper, Stop } from "./run.mjs";
import { EXCEL_HEADERS, listenHere, siteHandler } from "./serve.mjs";
import { ensurePackages, PROJECT } from "./setup.mjs";
import { words } from "./setup-words.mjs";

/**
 * The tools of Excel's maker are not in the lock file on purpose: together they weigh some 450 MB, bring a native module for the
 * system's keychain, and are of no use on the machines where the project is built and tested. They are pinned here instead.
 */
const CERTIFICATES = "office-addin-dev-certs@3.0.0";
const DEBUGGING = "office-addin-debugging@7.0.0";
/** The port that manifest.xml names. */
const PORT = 3000;
const MANIFEST = path.join(PROJECT, "manifest/manifest.xml");

/**
 * Certificate, server, Excel. Stays until Ctrl-C, and then takes the add-in out of Excel.
 * @throws Stop with a sentence, at once where there is no Excel
 */
export async function sideload(platform = process.platform) {
  if (platform !== "win32" && platform !== "darwin") throw new Stop(words.sideloadElsewhere);
  console.log(words.sideloadPlan);
  const step = stepper(4);
  step(words.packages);
  await ensurePackages();
  step(words.building.site);
  await bundle("site");
  step(words.sideloadCertificates);
  if ((await npx(CERTIFICATES, "install")) !== 0) throw new Stop(words.sideloadCertificatesFailed);
  const server = await serveToExcel(path.join(PROJECT, "dist/site"), readCertificate());
  console.log(words.serving(`https://localhost:${server.port}`));
  step(words.sideloadOpening);
  const opened = (await npx(DEBUGGING, "start", MANIFEST, "desktop")) === 0;
  if (!opened) console.log(words.sideloadByHand);
  process.once("SIGINT", async () => {
    await server.close();
    if (opened) {
      console.log(words.sideloadRemoving);
      await npx(DEBUGGING, "stop", MANIFEST);
    }
    console.log(words.stopped);
    process.exit(0);
  });
}

/** An https server with the built folder, as Excel needs it. @throws Stop if the port is taken */
export async function serveToExcel(site, certificate, port = PORT) {
  try {
    return await listenHere(siteHandler(() => site, EXCEL_HEADERS), port, certificate);
  } catch (error) {
    throw error.code === "EADDRINUSE" ? new Stop(words.sideloadPortInUse(port)) : error;
  }
}

/** The pair that the certificate tool leaves in the user's home folder. */
export function readCertificate(home = os.homedir()) {
  const read = (name) => {
    const file = path.join(home, ".office-addin-dev-certs", name);
    if (!fs.existsSync(file)) throw new Stop(words.sideloadNoCertificate(file));
    return fs.readFileSync(file);
  };
  return { cert: read("localhost.crt"), key: read("localhost.key") };
}

async function npx(tool, ...given) {
  // The project's own setting forbids install scripts; the keychain module of these tools needs its own.
  const { code } = await run([...npmCommand("npx"), "--yes", "--ignore-scripts=false", tool, ...given], { cwd: PROJECT });
  return code;
}
