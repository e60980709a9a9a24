/** Runs a TypeScript script of this project: `node scripts/ts.cjs scripts/name.ts args`. Types are checked in the lint step. */
const fs = require("node:fs");
const path = require("node:path");
const ts = require("typescript");

const compilerOptions = {
  module: ts.ModuleKind.CommonJS,
  target: ts.ScriptTarget.ES2022,
  jsx: ts.JsxEmit.ReactJSX,
  esModuleInterop: true,
  resolveJsonModule: true,
};
for (const ending of [".ts", ".tsx"]) {
  require.extensions[ending] = (module, file) => {
    const { outputText } = ts.transpileModule(fs.readFileSync(file, "utf8"), { compilerOptions, fileName: file });
    module._compile(outputText, file);
  };
}
const script = process.argv[2];
process.argv.splice(1, 1);
require(path.resolve(script));
