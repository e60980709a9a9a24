import fs from "node:fs";
import http from "node:http";
import https from "node:https";
import path from "node:path";
import { words } from "./setup-words.mjs";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".woff2": "font/woff2",
  ".txt": "text/plain; charset=utf-8",
  ".xml": "application/xml; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

/** The local page asks nobody but this server; only styles may stand in the page itself, because the pane's library writes them there. */
const POLICY = [
  "default-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "worker-src 'self' blob:",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

export const PAGE_HEADERS = {
  "content-security-policy": POLICY,
  "x-content-type-options": "nosniff",
  "referrer-policy": "no-referrer",
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
};

/**
 * For Excel: it loads the pane into a frame of its own, the pane loads the host's script from its official address, and Excel on the
 * web fetches functions.json from another origin.
 */
export const EXCEL_HEADERS = { "x-content-type-options": "nosniff", "access-control-allow-origin": "*" };

/**
 * A request handler that gives the files of one folder and nothing else: no listing, no hidden file, no way out of the folder.
 * @param {() => string | undefined} folder asked at every request; undefined while the page is being built
 */
export function siteHandler(folder, headers = PAGE_HEADERS) {
  return (request, response) => {
    const site = folder();
    const refuse = (status, sentence, more = {}) => answer(response, status, { ...headers, ...more, "cache-control": "no-store" }, sentence);
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(405, words.onlyReading, { allow: "GET, HEAD" });
    if (!site) return refuse(503, words.notReady, { "retry-after": "20" });
    const parts = readPath(request.url ?? "/");
    if (!parts) return refuse(400, words.badAddress);
    const file = fileIn(site, parts);
    if (!file) return refuse(404, words.notFound);
    const ending = path.extname(file).toLowerCase();
    // Office keeps its own copy of an add-in's icons, and shows a blank one when the server gives any word on caching.
    const caching = headers === EXCEL_HEADERS && ending === ".png" ? {} : { "cache-control": "no-store" };
    response.writeHead(200, { ...headers, ...caching, "content-type": TYPES[ending] ?? "application/octet-stream", "content-length": fs.statSync(file).size });
    if (request.method === "HEAD") return response.end();
    return fs.createReadStream(file).on("error", () => response.destroy()).pipe(response);
  };
}

/**
 * Listens on this machine only: 127.0.0.1, and ::1 where there is one (browsers may take either for "localhost").
 * @param port 0 for a free one
 * @param secure a certificate and key for https
 * @returns {Promise<{port: number, close: () => Promise<void>}>} rejects with the system's error, such as code EADDRINUSE
 */
export async function listenHere(handler, port, secure) {
  const create = () => (secure ? https.createServer(secure, handler) : http.createServer(handler));
  const first = await listenOn(create(), port, "127.0.0.1");
  const taken = first.address().port;
  const servers = [first];
  try {
    servers.push(await listenOn(create(), taken, "::1"));
  } catch (error) {
    // A machine without IPv6 is served by the first address alone.
    if (error.code === "EADDRINUSE") {
      await closeServer(first);
      throw error;
    }
  }
  return { port: taken, close: async () => void (await Promise.all(servers.map(closeServer))) };
}

function listenOn(server, port, host) {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen({ port, host, ipv6Only: host === "::1" }, () => resolve(server));
  });
}

function closeServer(server) {
  return new Promise((resolve) => {
    server.close(resolve);
    server.closeAllConnections();
  });
}

function answer(response, status, headers, sentence) {
  response.writeHead(status, { ...headers, "content-type": "text/plain; charset=utf-8" });
  response.end(`${sentence}\n`);
}

/** The parts of the path that is asked for, or undefined if it cannot be read. */
function readPath(url) {
  try {
    const decoded = decodeURIComponent(url.replace(/[?#].*$/s, ""));
    return decoded.startsWith("/") && !decoded.includes("\0") ? decoded.slice(1).split("/") : undefined;
  } catch {
    return undefined;
  }
}

/** The file for a path, or undefined: also for hidden names, for "..", and for a link that leads out of the folder. */
function fileIn(site, parts) {
  const names = parts.length === 1 && parts[0] === "" ? ["index.html"] : parts;
  if (names.some((name) => name === "" || name.startsWith(".") || /[\\:]/.test(name))) return undefined;
  try {
    const file = fs.realpathSync(path.join(site, ...names));
    return file.startsWith(fs.realpathSync(site) + path.sep) && fs.statSync(file).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}
