import { onModernNode } from "./node-check.mjs";

/** `npm run sideload`: loads the add-in into the Excel of this computer (Windows and Mac). */
onModernNode(async () => (await import("./sideload-excel.mjs")).sideload());
