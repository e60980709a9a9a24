/**
 * Mutation testing of the science: `npm run test:mutation`, or for some files `npm run test:mutation -- --mutate src/science/trend.ts`.
 * Not part of `npm test`: a whole run takes the better part of an hour.
 *
 * src/science/constants is left out: tables of figures, names and notes without a branch. A mutant there is another figure, and
 * figures are held against their sources by test/published.
 */
export default {
  testRunner: "jest",
  plugins: ["@stryker-mutator/jest-runner"],
  jest: { projectType: "custom", configFile: "jest.mutation.cjs", enableFindRelatedTests: true },
  coverageAnalysis: "perTest",
  mutate: ["src/science/**/*.ts", "!src/science/constants/**"],
  ignorePatterns: ["/.cache", "/dist", "/manifest", "/samples", "/test/browser", "/test/pane"],
  concurrency: 2,
  timeoutMS: 20000,
  dryRunTimeoutMinutes: 30,
  tempDirName: ".cache/stryker-sandbox",
  incrementalFile: ".cache/stryker/incremental.json",
  reporters: ["clear-text", "json", "html"],
  clearTextReporter: { allowColor: false, logTests: false, skipFull: true },
  jsonReporter: { fileName: ".cache/stryker/report.json" },
  htmlReporter: { fileName: ".cache/stryker/report.html" },
  thresholds: { high: 90, low: 80, break: 80 },
};
