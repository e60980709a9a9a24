import fs from "node:fs";
import http from "node:http";
import os from "node:os";
import path from "node:path";
import { ended, runModule, runScript, scriptUrl, startScript, temporaryFolder, written } from "./scripts";

const site = temporaryFolder();
fs.writeFileSync(path.join(site, "index.html"), "<h1>A built page</h1>");
const withSite = { ALGAL_SITE: site };
const start = () => startScript("start.mjs", ["--port", "0", "--no-open"], withSite);

describe("npm start", () => {
  it("serves the page on this machine and stops on Ctrl-C", async () => {
    const child = start();
    const [, port = ""] = await written(child, /at http:\/\/localhost:(\d+) /);
    const page = await (await fetch(`http://127.0.0.1:${port}/`)).text();
    expect(page).toBe("<h1>A built page</h1>");
    const end = ended(child);
    child.kill("SIGINT");
    expect(await end).toEqual({ code: 0, out: "Stopped.\n", err: "" });
  });

  it("says which port is in use and how to take another", async () => {
    const first = start();
    const [, port = ""] = await written(first, /at http:\/\/localhost:(\d+) /);
    const second = await runScript("start.mjs", ["--port", port, "--no-open"], withSite);
    const other = Number(port) + 1;
    expect(second).toEqual({
      code: 1,
      out: "",
      err: `Port ${port} is in use by another program. Close that program, or use another port: npm start -- --port ${other}\n`,
    });
    const end = ended(first);
    first.kill("SIGINT");
    await end;
  });

  const onIpv6 = Object.values(os.networkInterfaces()).flat().some((address) => address?.address === "::1") ? it : it.skip;
  onIpv6("says so too when another program has the port on the IPv6 address only", async () => {
    const other = http.createServer();
    const port = await new Promise<number>((resolve) => other.listen(0, "::1", () => resolve((other.address() as { port: number }).port)));
    const { code, err } = await runScript("start.mjs", [`--port=${port}`, "--no-open"], withSite);
    expect({ code, err }).toEqual({ code: 1, err: expect.stringContaining(`Port ${port} is in use`) as string });
    other.close();
  });

  it.each([
    [["--prot", "3001"], "--prot is not understood. Use: npm start -- [--port number] [--no-open]\n"],
    [["--port", "http"], '"http" is not a port. Write a number from 1 to 65535, such as npm start -- --port 3001\n'],
    [["--port", "70000"], '"70000" is not a port. Write a number from 1 to 65535, such as npm start -- --port 3001\n'],
    [["--port"], '"" is not a port. Write a number from 1 to 65535, such as npm start -- --port 3001\n'],
  ])("refuses the arguments %p with one sentence", async (given, sentence) => {
    expect(await runScript("start.mjs", given, withSite)).toEqual({ code: 1, out: "", err: sentence });
  });

  it("refuses a folder that holds no built page", async () => {
    const empty = path.join(site, "empty");
    fs.mkdirSync(empty);
    const { code, err } = await runScript("start.mjs", ["--port", "0", "--no-open"], { ALGAL_SITE: empty });
    expect({ code, err }).toEqual({ code: 1, err: `There is no index.html in ${empty}: name a folder with a built page.\n` });
  });

  it("goes on, with a hint, where no browser can be opened", async () => {
    const child = startScript("start.mjs", ["--port", "0"], { ...withSite, PATH: "", DISPLAY: "", WAYLAND_DISPLAY: "" });
    const [, port = ""] = await written(child, /No browser could be opened from here: open http:\/\/localhost:(\d+) yourself\./);
    expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(200);
    const end = ended(child);
    child.kill();
    await end;
  });

  it("asks the system to open the page", async () => {
    const folder = fs.mkdtempSync(path.join(site, "folder-"));
    const note = path.join(folder, "asked");
    fs.writeFileSync(path.join(folder, "xdg-open"), `#!/bin/sh\necho "$1" > '${note}'\n`, { mode: 0o755 });
    const { shown } = await runModule(`
      import { openBrowser } from ${JSON.stringify(scriptUrl("start-page.mjs"))};
      import { thisMachine } from ${JSON.stringify(scriptUrl("find-program.mjs"))};
      process.env.PATH = ${JSON.stringify(`${folder}:/bin:/usr/bin`)};
      show(await openBrowser("http://localhost:3000", { ...thisMachine(), platform: "linux", env: { ...process.env, DISPLAY: ":9" } }));`);
    expect(shown).toEqual([true]);
    expect(fs.readFileSync(note, "utf8")).toBe("http://localhost:3000\n");
  });
});
