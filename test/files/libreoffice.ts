import { execFileSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";

/** Settings of a profile in which every formula of a workbook is calculated again when it is opened. */
const RECALCULATE =
  '<?xml version="1.0" encoding="UTF-8"?><oor:items xmlns:oor="http://openoffice.org/2001/registry"><item oor:path="/org.openoffice.Office.Calc/Formula/Load">' +
  '<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>';

/** Makes such a profile inside a folder; gives its path. */
export function profileThatRecalculates(folder: string): string {
  const profile = path.join(folder, "profile");
  fs.mkdirSync(path.join(profile, "user"), { recursive: true });
  fs.writeFileSync(path.join(profile, "user/registrymodifications.xcu"), RECALCULATE);
  return profile;
}

/** LibreOffice as the reader and writer that is not ours. It has a profile of its own, so that no user's settings count. */
export function convert(files: Record<string, Uint8Array>, format: string, inputFilter?: string, recalculate = false): Record<string, Buffer> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-office-"));
  try {
    const inputs = Object.entries(files).map(([name, content]) => {
      const file = path.join(folder, name);
      fs.writeFileSync(file, content);
      return file;
    });
    const out = path.join(folder, "out");
    if (recalculate) profileThatRecalculates(folder);
    const program = process.env.SOFFICE_PATH ?? "soffice";
    execFileSync(program, [`-env:UserInstallation=file://${folder}/profile`, "--headless", ...(inputFilter ? [`--infilter=${inputFilter}`] : []), "--convert-to", format, "--outdir", out, ...inputs], { stdio: "pipe", timeout: 120_000 + 3_000 * inputs.length });
    const ending = format.split(":")[0] ?? format;
    return Object.fromEntries(Object.keys(files).map((name) => [name, fs.readFileSync(path.join(out, name.replace(/\.[^.]+$/, `.${ending}`)))]));
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}

/** The first sheet of each workbook as rows of what LibreOffice shows. */
export function shownRows(files: Record<string, Uint8Array>): Record<string, string[][]> {
  const shown = convert(files, "csv:Text - txt - csv (StarCalc):9,34,76,1,,0,false,true,true");
  return Object.fromEntries(Object.entries(shown).map(([name, text]) => [name, text.toString("utf8").replace(/\n$/, "").split("\n").map((line) => line.split("\t"))]));
}
