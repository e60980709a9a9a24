/** Jest runs the TypeScript as it stands; types are checked once by `tsc` in the lint step, not per test file. */
module.exports = {
  testEnvironment: "node",
  testMatch: ["<rootDir>/test/**/*.test.ts", "<rootDir>/test/**/*.test.tsx"],
  transform: {
    "^.+\\.tsx?$": [
      "ts-jest",
      { tsconfig: { module: "CommonJS", moduleResolution: "Node10", target: "ES2022", jsx: "react-jsx", esModuleInterop: true, resolveJsonModule: true, isolatedModules: true, ignoreDeprecations: "5.0" }, diagnostics: false },
    ],
  },
  cacheDirectory: "<rootDir>/.cache/jest",
  testTimeout: 60000,
};
