/** Arrows run downward only: pane, host, cli -> workbook, functions, files -> science; words below all; no circles. */
const room = (name) => `^src/${name}/`;
const only = (name, from, allowed) => ({
  name,
  severity: "error",
  from: { path: from },
  to: { path: "^src/", pathNot: [from, ...allowed] },
});
const words = room("words");
const science = room("science");
module.exports = {
  forbidden: [
    // Types may name each other (a range knows its sheet and a sheet its ranges); running code may not.
    { name: "no-circle", severity: "error", from: {}, to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } } },
    only("words-import-nothing", words, []),
    only("science-knows-no-room-above", science, [words]),
    { name: "science-is-pure", severity: "error", from: { path: science }, to: { dependencyTypes: ["npm", "npm-dev", "core"] } },
    only("functions-stand-on-science", room("functions"), [science, words]),
    only("files-stand-on-science", room("files"), [science, words]),
    only("workbook-stands-on-functions", room("workbook"), [room("functions"), science, words]),
    only("native-stands-on-functions-and-files", room("native"), [room("functions"), room("files"), science, words]),
    // Only the copy that recalculates needs an engine in the pane, and loads it when one is made.
    only("pane-stands-on-workbook", room("pane"), [room("native"), "^src/host/engine/", room("workbook"), room("files"), room("functions"), science, words]),
    only("host-embeds-pane-and-files", room("host"), [room("native"), room("pane"), room("workbook"), room("functions"), room("files"), science, words]),
    only("cli-uses-engine-and-files", room("cli"), ["^src/host/engine/", room("native"), room("functions"), room("files"), science, words]),
    { name: "engine-needs-no-page", severity: "error", from: { path: "^src/host/engine/" }, to: { path: "^src/(pane|workbook|host/(grid|page|excel))/" } },
    { name: "only-workbook-and-entry-know-office", severity: "error", from: { pathNot: ["^src/(workbook|pane|host)/", "^src/functions/entry"] }, to: { path: "office-js" } },
  ],
  options: { doNotFollow: { path: "node_modules" }, tsPreCompilationDeps: true, tsConfig: { fileName: "tsconfig.json" }, exclude: { path: "^node_modules" } },
};
