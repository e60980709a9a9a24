/**
 * Words of the scripts that have to run before anything is installed (they cannot import TypeScript, so these do not stand in src/words).
 * Every sentence of a stop says what to do next. The syntax is old on purpose: an old Node must be able to read it and say so.
 */
export const words = {
  nodeTooOld: (found) => `Algal Ledger needs Node 20 or newer, and this is Node ${found}. Get a newer one from https://nodejs.org and try again.`,
  unknownOption: (option, usage) => `${option} is not understood. Use: ${usage}`,
  notTheProject: (folder) => `There is no package-lock.json in ${folder}: run this in the folder of Algal Ledger.`,
  step: (number, of, what) => `[${number}/${of}] ${what}`,
  stillBusy: (seconds) => `      still busy after ${seconds} s`,
  took: (seconds) => `      done in ${seconds} s`,

  packages: "Packages from the npm registry",
  packagesInPlace: "      in place",
  installingPackages: (count) => `      installing ${count} packages into node_modules, and nowhere else: 1 to 3 minutes the first time`,
  npmFailed: (code) => `npm could not install the packages (exit code ${code}); its own words are above. Run "npm ci" to see it again.`,
  noNetwork: (what) => `${what} could not be fetched because the network does not answer. Connect to the internet (or set npm's registry or proxy) and run the same command again.`,
  packagesAreWanted: "The packages",

  browser: "A browser for the tests",
  office: "LibreOffice for the tests",
  found: (place) => `      found ${place}`,
  installing: (names) => `      installing ${names} with apt-get: 1 to 3 minutes`,
  aptFailed: (names) => `apt-get could not install ${names}; its own words are above. Install it by hand and run the same command again.`,
  variableWrong: (variable, value) => `The variable ${variable} names "${value}", and there is no such program. Correct it or unset it.`,
  browserMissing: {
    linux: "No Chromium, Chrome or Edge was found. Install one (Debian and Ubuntu: sudo apt-get install chromium) or set CHROME_PATH to its program file, and run the same command again.",
    darwin: "No Chromium, Chrome or Edge was found. Install one from its maker's site into Applications, or set CHROME_PATH to its program file, and run the same command again.",
    win32: "No Chromium, Chrome or Edge was found. Install one, or set CHROME_PATH to its program file (chrome.exe or msedge.exe), and run the same command again.",
  },
  officeMissing: {
    linux: "LibreOffice was not found. Install it (Debian and Ubuntu: sudo apt-get install --no-install-recommends libreoffice-calc) or set SOFFICE_PATH to its soffice, and run the same command again.",
    darwin: "LibreOffice was not found. Install it from https://www.libreoffice.org into Applications, or set SOFFICE_PATH to its soffice, and run the same command again.",
    win32: "LibreOffice was not found. Install it from https://www.libreoffice.org, or set SOFFICE_PATH to its soffice.exe, and run the same command again.",
  },

  building: { site: "Building the page", node: "Building the command line" },
  builtBefore: "      built before, and no source has changed since",
  buildTakes: "      a minute or more the first time, less after that",
  buildFailed: "The build did not work; the messages above say where.",
  noPage: (folder) => `There is no index.html in ${folder}: name a folder with a built page.`,

  buildUsage: "npm run build -- [--base https://host/path/]",
  startUsage: "npm start -- [--port number] [--no-open]",
  portWrong: (given) => `"${given}" is not a port. Write a number from 1 to 65535, such as npm start -- --port 3001`,
  portInUse: (port, other) => `Port ${port} is in use by another program. Close that program, or use another port: npm start -- --port ${other}`,
  portForbidden: (port, other) => `This user may not open port ${port}. Use another port: npm start -- --port ${other}`,
  serving: (address) => `Algal Ledger is at ${address} (only on this machine; Ctrl-C stops it).`,
  openByHand: (address) => `No browser could be opened from here: open ${address} yourself.`,
  stopped: "Stopped.",
  notReady: "The page is being built. Reload in a minute.",
  notFound: "There is no such page.",
  badAddress: "This address cannot be read.",
  onlyReading: "This server only gives files.",

  testLint: "Types and rules of the code",
  testLintFailed: "The lint step found something; the messages above say where.",
  testManifest: "The add-in's manifest",
  testManifestFailed: "The manifest is not in order; the sentences above say where.",
  testRun: "The tests",
  testCount: (passed, failed, skipped) => `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`,
  testNotCounted: "The tests did not run to their end, so there is no count.",

  sideloadElsewhere:
    "There is no Excel for this system. Use Excel on the web: put the built folder on an https address of your own, make its manifest with " +
    "npm run build -- --base https://host/path/ and upload that manifest in Excel (Home, Add-ins, More add-ins, Upload my add-in).",
  sideloadPlan: [
    "This loads Algal Ledger into the Excel of this computer, for trying it out:",
    "  1. a certificate for https://localhost is made and trusted on this computer for 30 days (your system asks you to agree);",
    "  2. the built page is served on https://localhost:3000, to this computer only;",
    "  3. Excel opens with the add-in. Ctrl-C here takes it out of Excel again.",
    "Steps 1 and 3 fetch two tools of the maker of Excel through npx (several hundred megabytes the first time, with their own privacy terms).",
    "This was not tried with a real Excel when this version was made.",
  ].join("\n"),
  sideloadCertificates: "Making the certificate",
  sideloadCertificatesFailed: "The certificate could not be made; the messages above say why.",
  sideloadNoCertificate: (file) => `The certificate ${file} is not there, although its tool said that it made it.`,
  sideloadPortInUse: (port) => `Port ${port} is in use by another program, and the manifest names this port. Close that program and try again.`,
  sideloadOpening: "Opening Excel",
  sideloadByHand: "Excel could not be opened from here. The page is served all the same: load manifest/manifest.xml in Excel yourself, as the README says.",
  sideloadRemoving: "Taking the add-in out of Excel",
};
