const compile = {
  tsconfig: { module: "CommonJS", moduleResolution: "Node10", target: "ES2022", jsx: "react-jsx", esModuleInterop: true, resolveJsonModule: true, isolatedModules: true, ignoreDeprecations: "5.0", allowJs: true },
  diagnostics: false,
};

/** Packages under the grid that come as ES modules only; jest runs CommonJS, so these are translated. */
const AS_MODULES = "lodash-es|nanoid|rbush|quickselect|kdbush|cjk-regex|regexp-util|unicode-regex|franc-min|trigram-utils|n-gram|collapse-white-space";

/** Jest runs the TypeScript as it stands; types are checked once by `tsc` in the lint step, not per test file. */
module.exports = {
  testEnvironment: "node",
  testMatch: ["<rootDir>/test/**/*.test.ts", "<rootDir>/test/**/*.test.tsx"],
  transform: { "^.+\\.(tsx?|m?js)$": ["ts-jest", compile] },
  transformIgnorePatterns: [`/node_modules/(?!(?:@univerjs/[^/]+/node_modules/)?(?:${AS_MODULES})/)`],
  // As in webpack.config.js.
  moduleNameMapper: { "^numfmt$": "<rootDir>/src/host/engine/typed-dates.ts" },
  // Random cases with one seed: a run that was green stays green until the code changes.
  setupFiles: ["<rootDir>/test/seed.ts"],
  cacheDirectory: "<rootDir>/.cache/jest",
  // Left to itself jest takes one core less than there are, which on two is one.
  maxWorkers: 2,
  testTimeout: 120000,
};
