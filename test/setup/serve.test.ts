import { type ChildProcess, spawn } from "node:child_process";
import fs from "node:fs";
import http from "node:http";
import https from "node:https";
import path from "node:path";
import { ended, plainEnvironment, scriptUrl, temporaryFolder, written } from "./scripts";
import { selfSigned } from "./self-signed";

const parent = temporaryFolder();
const site = path.join(parent, "site");
fs.mkdirSync(path.join(site, "assets"), { recursive: true });
const put = (name: string, text: string) => fs.writeFileSync(path.join(parent, name), text);
put("secret.txt", "not of the site");
put("site-beside.txt", "not of the site");
put("site/index.html", "<h1>page</h1>");
put("site/host.js", "1;");
put("site/host.css", "a{}");
put("site/functions.json", "{}");
put("site/book.xlsx", "zip");
put("site/unknown.abc", "?");
put("site/.hidden", "hidden");
put("site/assets/icon-16.png", "png");
put("site/assets/name with space.png", "png");
fs.symlinkSync(path.join(parent, "secret.txt"), path.join(site, "link.txt"));

interface Answer {
  status: number;
  headers: http.IncomingHttpHeaders;
  body: string;
}

const servers: ChildProcess[] = [];
const closed: Promise<unknown>[] = [];

/** Starts the real server in a Node of its own and gives its port. */
async function serve(argument: string, secure?: object): Promise<number> {
  const program = `
    import { listenHere, siteHandler, EXCEL_HEADERS, PAGE_HEADERS } from ${JSON.stringify(scriptUrl("serve.mjs"))};
    const site = ${JSON.stringify(site)};
    const { port } = await listenHere(siteHandler(${argument}), 0, ${JSON.stringify(secure)});
    console.log("port " + port);`;
  const child = spawn(process.execPath, ["--input-type=module", "-e", program], { env: plainEnvironment() });
  servers.push(child);
  closed.push(ended(child));
  return Number((await written(child, /port (\d+)/))[1]);
}

/** Asks for a path exactly as it is written: fetch would tidy it up first. */
function ask(port: number, asked: string, options: https.RequestOptions = {}): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const protocol = options.ca ? https : http;
    const request = protocol.request({ host: "127.0.0.1", port, path: asked, agent: false, ...options }, (response) => {
      let body = "";
      response.on("data", (bytes) => (body += String(bytes)));
      response.on("end", () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
    });
    request.on("error", reject).end();
  });
}

afterAll(async () => {
  for (const child of servers) child.kill();
  await Promise.all(closed);
});

describe("the server of the local page", () => {
  let port: number;
  beforeAll(async () => {
    port = await serve("() => site");
  });

  it("gives the page with headers that keep it to this machine", async () => {
    const { status, headers, body } = await ask(port, "/");
    expect({ status, body }).toEqual({ status: 200, body: "<h1>page</h1>" });
    expect(headers["content-security-policy"]).toBe(
      "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; worker-src 'self' blob:; " +
        "connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    );
    expect(headers).toMatchObject({
      "content-type": "text/html; charset=utf-8",
      "content-length": "13",
      "cache-control": "no-store",
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-opener-policy": "same-origin",
      "cross-origin-resource-policy": "same-origin",
    });
  });

  it("names the type of every kind of file", async () => {
    const types = await Promise.all(["host.js", "host.css?v=1", "functions.json", "book.xlsx", "assets/icon-16.png", "assets/name%20with%20space.png", "unknown.abc"].map(async (name) => (await ask(port, `/${name}`)).headers["content-type"]));
    expect(types).toEqual([
      "text/javascript; charset=utf-8",
      "text/css; charset=utf-8",
      "application/json; charset=utf-8",
      "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
      "image/png",
      "image/png",
      "application/octet-stream",
    ]);
  });

  it.each([
    "/../secret.txt", "/assets/../../secret.txt", "/..%2fsecret.txt", "/%2e%2e/secret.txt", "/%2e%2e%2fsecret.txt", "/..%5csecret.txt", "/..\\secret.txt",
    "//secret.txt", "/../site-beside.txt", "/assets/%2e%2e/%2e%2e/secret.txt", `/${path.join(parent, "secret.txt")}`, "/C:/secret.txt",
  ])("does not leave its folder for %s", async (asked) => {
    const { status, body } = await ask(port, asked);
    expect({ status, body }).toEqual({ status: 404, body: "There is no such page.\n" });
  });

  it.each(["/link.txt", "/.hidden", "/assets", "/assets/", "/nothing.html"])("does not give %s: a link out, a hidden file, a listing, nothing", async (asked) => {
    const { status, headers } = await ask(port, asked);
    expect(status).toBe(404);
    expect(headers["x-content-type-options"]).toBe("nosniff");
  });

  it.each(["/%00", "/%", "/%ff"])("refuses the address %s, which cannot be read", async (asked) => {
    expect(await ask(port, asked)).toMatchObject({ status: 400, body: "This address cannot be read.\n" });
  });

  it("only reads", async () => {
    expect(await ask(port, "/", { method: "POST" })).toMatchObject({ status: 405, headers: { allow: "GET, HEAD" }, body: "This server only gives files.\n" });
    const head = await ask(port, "/", { method: "HEAD" });
    expect(head).toMatchObject({ status: 200, body: "", headers: { "content-length": "13" } });
  });

  it("says that the page is being built as long as it is", async () => {
    const early = await serve("() => undefined");
    expect(await ask(early, "/")).toMatchObject({ status: 503, headers: { "retry-after": "20" }, body: "The page is being built. Reload in a minute.\n" });
  });
});

describe("the server for Excel", () => {
  it("speaks https, lets Excel fetch the metadata, and gives no word on caching for icons", async () => {
    const pair = selfSigned();
    const port = await serve("() => site, EXCEL_HEADERS", pair);
    const secure = { ca: pair.cert, servername: "localhost" };
    const page = await ask(port, "/functions.json", secure);
    expect(page).toMatchObject({ status: 200, body: "{}", headers: { "access-control-allow-origin": "*", "cache-control": "no-store", "x-content-type-options": "nosniff" } });
    expect(page.headers["content-security-policy"]).toBeUndefined();
    const icon = await ask(port, "/assets/icon-16.png", secure);
    expect(icon.status).toBe(200);
    expect(icon.headers["cache-control"]).toBeUndefined();
    expect(await ask(port, "/../secret.txt", secure)).toMatchObject({ status: 404 });
  });
});
