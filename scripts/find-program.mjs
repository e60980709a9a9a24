import fs from "node:fs";
import path from "node:path";

const CHROMIUM_NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge", "microsoft-edge-stable"];
const onWindows = (...tails) => ["ProgramFiles", "ProgramFiles(x86)", "LOCALAPPDATA"].flatMap((variable) => tails.map((tail) => [variable, tail]));

/** The programs that the tests need: which variable names one, what it is called, where it usually stands, which Debian packages have it. */
export const PROGRAMS = {
  browser: {
    variables: ["CHROME_PATH", "CHROMIUM_PATH"],
    names: { linux: CHROMIUM_NAMES, darwin: CHROMIUM_NAMES, win32: ["chrome.exe", "msedge.exe", "chromium.exe"] },
    places: {
      linux: CHROMIUM_NAMES.map((name) => `/usr/bin/${name}`).concat("/snap/bin/chromium", "/opt/google/chrome/chrome", "/opt/microsoft/msedge/msedge"),
      darwin: ["Chromium", "Google Chrome", "Microsoft Edge"].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`),
      win32: onWindows("Google\\Chrome\\Application\\chrome.exe", "Microsoft\\Edge\\Application\\msedge.exe", "Chromium\\Application\\chrome.exe"),
    },
    debian: ["chromium", "fonts-liberation"],
  },
  office: {
    variables: ["SOFFICE_PATH"],
    names: { linux: ["soffice", "libreoffice"], darwin: ["soffice"], win32: ["soffice.exe"] },
    places: {
      linux: ["/usr/bin/soffice", "/usr/lib/libreoffice/program/soffice", "/opt/libreoffice/program/soffice", "/snap/bin/libreoffice"],
      darwin: ["/Applications/LibreOffice.app/Contents/MacOS/soffice"],
      win32: onWindows("LibreOffice\\program\\soffice.exe"),
    },
    debian: ["libreoffice-calc"],
  },
};

/** What the search looks at; tests give another one. */
export function thisMachine() {
  return { platform: process.platform, env: process.env, exists: isFile, isRoot: process.getuid?.() === 0 };
}

/**
 * Looks for a program: the variable that names it, then the PATH, then the usual places.
 * @returns {{place?: string, wrong?: {variable: string, value: string}}} `wrong` if a variable names something that is not there
 */
export function findProgram(kind, machine = thisMachine()) {
  const { variables, names, places } = PROGRAMS[kind];
  const { platform, env, exists } = machine;
  const variable = variables.find((name) => env[name]);
  if (variable) return exists(env[variable]) ? { place: env[variable] } : { wrong: { variable, value: env[variable] } };
  const usual = (places[platform] ?? []).map((place) => (typeof place === "string" ? place : env[place[0]] && `${env[place[0]]}\\${place[1]}`));
  const candidates = [...(names[platform] ?? []).flatMap((name) => inPath(name, machine)), ...usual];
  return { place: candidates.find((candidate) => candidate && exists(candidate)) };
}

/** The files that a program of this name would be, folder by folder of the PATH. */
export function inPath(name, { platform, env }) {
  const separator = platform === "win32" ? ";" : ":";
  const flavour = platform === "win32" ? path.win32 : path.posix;
  return (env.PATH ?? env.Path ?? "").split(separator).filter(Boolean).map((folder) => flavour.join(folder, name));
}

function isFile(file) {
  try {
    fs.accessSync(file, fs.constants.X_OK);
    return fs.statSync(file).isFile();
  } catch {
    return false;
  }
}
