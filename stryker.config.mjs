/**
 * Mutation testing of the science: `npm run test:mutation`, or for some files `npm run test:mutation -- --mutate src/science/trend.ts`.
 * Not part of `npm test`: a whole run takes an hour and more on two cores.
 *
 * src/science/constants is left out: tables of figures, names and notes without a branch. A mutant there is another figure, and
 * figures are held against their sources by test/published.
 */
export default {
  testRunner: "one-process",
  plugins: ["./scripts/mutation/one-process-runner.mjs"],
  coverageAnalysis: "perTest",
  // What is reckoned once while a module loads (tables, patterns) needs every module loaded afresh for each of its mutants: a day more.
  ignoreStatic: true,
  mutate: ["src/science/**/*.ts", "!src/science/constants/**"],
  ignorePatterns: ["/.cache", "/dist", "/manifest", "/samples", "/test/browser", "/test/pane"],
  concurrency: 2,
  timeoutMS: 15000,
  dryRunTimeoutMinutes: 30,
  tempDirName: ".cache/stryker-sandbox",
  incrementalFile: ".cache/stryker/incremental.json",
  reporters: ["clear-text", "json", "html", "progress-append-only"],
  clearTextReporter: { allowColor: false, logTests: false, skipFull: true },
  jsonReporter: { fileName: ".cache/stryker/report.json" },
  htmlReporter: { fileName: ".cache/stryker/report.html" },
  thresholds: { high: 90, low: 80, break: 80 },
};
