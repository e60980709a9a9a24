import tseslint from "typescript-eslint";

export default tseslint.config(
  { ignores: ["node_modules", "dist", ".cache", "samples"] },
  ...tseslint.configs.recommended,
  {
    files: ["src/**/*.{ts,tsx}", "scripts/**/*.ts"],
    languageOptions: { parserOptions: { projectService: true } },
    rules: {
      "@typescript-eslint/no-floating-promises": "error",
      "@typescript-eslint/no-misused-promises": "error",
      "no-console": ["error", { allow: ["error"] }],
      // `== null` asks for null and undefined at once.
      eqeqeq: ["error", "always", { null: "ignore" }],
    },
  },
  // Excel's own boundary: the metadata generator reads any[][] and knows no other name for "a range of anything".
  { files: ["src/functions/*-functions.ts"], rules: { "@typescript-eslint/no-explicit-any": "off" } },
  { files: ["test/**", "scripts/**", "src/cli/**"], rules: { "no-console": "off", "@typescript-eslint/no-explicit-any": "off", "@typescript-eslint/no-require-imports": "off" } },
  { files: ["**/*.{cjs,mjs}", "webpack.config.js"], rules: { "@typescript-eslint/no-require-imports": "off" } },
);
