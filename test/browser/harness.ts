import fs from "node:fs";
import http from "node:http";
import type { AddressInfo } from "node:net";
import os from "node:os";
import path from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";

/**
 * What a browser test needs: dist/site on a free loopback port, a Chromium with an empty profile, and a page that notes every
 * request that would leave the machine and every console error. `npm run build` comes first; a missing build is said plainly.
 */
export interface Harness {
  /** "http://127.0.0.1:PORT" */
  origin: string;
  context: BrowserContext;
  /** Opens a page of the site ("index.html") with the watch on it. */
  open(file: string, options?: OpenOptions): Promise<WatchedPage>;
  close(): Promise<void>;
}

export interface OpenOptions {
  width?: number;
  height?: number;
  colorScheme?: "light" | "dark";
  forcedColors?: "active" | "none";
  /** Whether the page finds what pages before it kept in the browser; left out, it starts with nothing. */
  keeps?: boolean;
}

export interface WatchedPage {
  page: Page;
  /** Addresses that were asked for and are not this machine's; they are refused as well as noted. */
  outside: string[];
  /** Console errors and exceptions that nobody caught. */
  errors: string[];
}

/** A page of the same origin with nothing in it. */
const BLANK = "/blank";
const SITE = path.join(__dirname, "../../dist/site");
const KINDS: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};
const CHROMIUM_PLACES = [process.env.CHROMIUM_PATH, "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export async function startHarness(site: string = SITE): Promise<Harness> {
  if (!fs.existsSync(path.join(site, "index.html"))) throw new Error(`There is no built page in ${site}. Run "npm run build" first.`);
  const server = await serve(site);
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-profile-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: findChromium(),
    headless: true,
    args: CHROMIUM_FLAGS,
    viewport: { width: 1400, height: 900 },
  });
  return {
    origin,
    context,
    open: (file, options = {}) => openWatched(context, `${origin}/${file}`, options),
    async close() {
      await context.close();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      fs.rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** The installed Chromium: CHROMIUM_PATH first, then the usual places, then one that playwright-core installed itself. */
export function findChromium(): string {
  const found = [...CHROMIUM_PLACES, chromium.executablePath()].find((place) => place && fs.existsSync(place));
  if (!found) throw new Error("No Chromium was found. Install one, or set CHROMIUM_PATH to its program file.");
  return found;
}

async function openWatched(context: BrowserContext, address: string, options: OpenOptions): Promise<WatchedPage> {
  const page = await context.newPage();
  const watched: WatchedPage = { page, outside: [], errors: [] };
  await page.setViewportSize({ width: options.width ?? 1400, height: options.height ?? 900 });
  await page.emulateMedia({ colorScheme: options.colorScheme ?? "light", forcedColors: options.forcedColors ?? "none" });
  await page.route("**/*", (route) => {
    const { protocol, hostname } = new URL(route.request().url());
    const local = ["data:", "blob:"].includes(protocol) || ["127.0.0.1", "localhost"].includes(hostname);
    // A test may answer a request of its own page in another way.
    if (local) return route.fallback();
    watched.outside.push(route.request().url());
    return route.abort();
  });
  page.on("websocket", (socket) => {
    if (!["127.0.0.1", "localhost"].includes(new URL(socket.url()).hostname)) watched.outside.push(socket.url());
  });
  page.on("console", (message) => {
    if (message.type() === "error") watched.errors.push(message.text());
  });
  page.on("pageerror", (error) => watched.errors.push(error.message));
  if (!options.keeps) await forgetKept(page, new URL(BLANK, address).href);
  await page.goto(address);
  return watched;
}

/** Takes out what pages kept. Other pages have the storage open, so it is emptied and not deleted. */
async function forgetKept(page: Page, blank: string): Promise<void> {
  await page.goto(blank);
  await page.evaluate(async () => {
    for (const { name = "" } of await indexedDB.databases()) {
      await new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const stores = [...database.objectStoreNames];
          if (stores.length === 0) return resolve(database.close());
          const emptying = database.transaction(stores, "readwrite");
          for (const store of stores) emptying.objectStore(store).clear();
          emptying.oncomplete = () => {
            database.close();
            resolve();
          };
          emptying.onabort = () => reject(emptying.error);
        };
      });
    }
  });
}

function serve(site: string): Promise<http.Server> {
  const server = http.createServer((request, response) => {
    const { pathname } = new URL(request.url ?? "/", "http://127.0.0.1");
    if (pathname === BLANK) {
      response.writeHead(200, { "content-type": "text/html; charset=utf-8" }).end('<!doctype html><link rel="icon" href="data:,">');
      return;
    }
    const file = path.join(site, path.normalize(decodeURIComponent(pathname === "/" ? "/index.html" : pathname)));
    if (!file.startsWith(site + path.sep) || !fs.existsSync(file) || !fs.statSync(file).isFile()) {
      response.writeHead(404, { "content-type": "text/plain" }).end("not found");
      return;
    }
    response.writeHead(200, { "content-type": KINDS[path.extname(file)] ?? "application/octet-stream", "cache-control": "no-store" });
    fs.createReadStream(file).pipe(response);
  });
  return new Promise((resolve) => server.listen(0, "127.0.0.1", () => resolve(server)));
}
