import { onModernNode } from "./node-check.mjs";

/** `npm start`: everything that the local page needs, then the page itself on http://localhost:3000. */
onModernNode(async () => (await import("./start-page.mjs")).startPage(process.argv.slice(2)));
