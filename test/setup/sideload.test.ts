import fs from "node:fs";
import https from "node:https";
import path from "node:path";
import { runModule, scriptUrl, temporaryFolder } from "./scripts";
import { selfSigned } from "./self-signed";

const home = temporaryFolder();
const tool = JSON.stringify(scriptUrl("sideload-excel.mjs"));
const refused = (call: string, imported: string) =>
  runModule(`import { ${imported} } from ${tool}; try { await ${call}; show("done"); } catch (error) { show(error.name + ": " + error.message); }`);

describe("npm run sideload", () => {
  it("says what to do instead where there is no Excel", async () => {
    const { shown, out } = await refused('sideload("linux")', "sideload");
    expect(shown).toEqual([
      "Stop: There is no Excel for this system. Use Excel on the web: put the built folder on an https address of your own, make its manifest with " +
        "npm run build -- --base https://host/path/ and upload that manifest in Excel (Home, Add-ins, More add-ins, Upload my add-in).",
    ]);
    expect(out.trim()).toBe("");
  });

  it("says which file of the certificate is not there", async () => {
    const { shown } = await refused(`readCertificate(${JSON.stringify(home)})`, "readCertificate");
    const file = path.join(home, ".office-addin-dev-certs/localhost.crt");
    expect(shown).toEqual([`Stop: The certificate ${file} is not there, although its tool said that it made it.`]);
  });

  it("serves with the certificate of the user's home folder, and says so when the port is taken", async () => {
    const { cert, key } = selfSigned();
    const folder = path.join(home, ".office-addin-dev-certs");
    fs.mkdirSync(folder);
    fs.writeFileSync(path.join(folder, "localhost.crt"), cert);
    fs.writeFileSync(path.join(folder, "localhost.key"), key);
    const other = https.createServer({ cert, key });
    const taken = await new Promise<number>((resolve) => other.listen(0, "127.0.0.1", () => resolve((other.address() as { port: number }).port)));
    const { shown } = await runModule(`
      import { readCertificate, serveToExcel } from ${tool};
      const certificate = readCertificate(${JSON.stringify(home)});
      const server = await serveToExcel(${JSON.stringify(home)}, certificate, 0);
      show(server.port > 0);
      await server.close();
      await serveToExcel(${JSON.stringify(home)}, certificate, ${taken}).catch((error) => show(error.message));`);
    expect(shown).toEqual([true, `Port ${taken} is in use by another program, and the manifest names this port. Close that program and try again.`]);
    other.close();
  });
});
