const everyday = require("./jest.config.cjs");

/**
 * Jest as Stryker runs it: only the tests that reach src/science. Left out are those that draw hundreds of random logs or fit
 * hundreds of noisy harvests, for each takes seconds and a mutant may have to run every one; the same code is reached by figures
 * from outside and by hand.
 */
module.exports = {
  ...everyday,
  testMatch: ["<rootDir>/test/science/**/*.test.ts", "<rootDir>/test/published/**/*.test.ts", "<rootDir>/test/functions/**/*.test.ts"],
  testPathIgnorePatterns: ["/node_modules/", "/test/science/invariants/", "/test/science/reconciled-budget", "/test/functions/warnings", "/test/functions/forecast"],
  cacheDirectory: "<rootDir>/.cache/jest-mutation",
};
