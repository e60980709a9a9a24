const path = require("node:path");
const CopyPlugin = require("copy-webpack-plugin");
const HtmlPlugin = require("html-webpack-plugin");
const MiniCssExtractPlugin = require("mini-css-extract-plugin");
const { IgnorePlugin } = require("webpack");

const root = __dirname;
const from = (...parts) => path.join(root, ...parts);

/** What both builds share: TypeScript is only translated here, types are checked once by the lint step. */
function base(name, mode) {
  return {
    name,
    mode,
    context: root,
    devtool: mode === "production" ? false : "cheap-module-source-map",
    // The grid's library of number formats, with dates read as people here write them.
    resolve: { extensions: [".ts", ".tsx", ".js"], alias: { numfmt$: from("src/host/engine/typed-dates.ts") } },
    cache: { type: "filesystem", name: `${name}-${mode}`, cacheDirectory: from(".cache/webpack"), buildDependencies: { config: [__filename] } },
    stats: "errors-warnings",
    performance: { hints: false },
    module: {
      rules: [
        {
          test: /\.tsx?$/,
          exclude: /node_modules/,
          use: {
            loader: "ts-loader",
            options: { transpileOnly: true, onlyCompileBundledFiles: true, compilerOptions: { noEmit: false } },
          },
        },
      ],
    },
  };
}

/** Leaves out the hyphenation of seventy languages, 4 MB: the grid loads that of English and hyphenates no cell. */
function withoutHyphenation() {
  return new IgnorePlugin({ resourceRegExp: /^\.\/(?!en-)[a-z]{2,3}(-[\w-]+)?-[\w-]{8}\.js$/, contextRegExp: /engine-render[\\/]lib[\\/]es$/ });
}

/** Keeps the grid's 14 MB as they are: shortening them takes a minute of every build, and they only come from the same machine. */
function leaveAsItIs(name) {
  return {
    apply(compiler) {
      const { PROCESS_ASSETS_STAGE_PRE_PROCESS: stage } = compiler.webpack.Compilation;
      compiler.hooks.thisCompilation.tap("LeaveAsItIs", (compilation) => {
        compilation.hooks.processAssets.tap({ name: "LeaveAsItIs", stage }, (assets) => {
          if (assets[name]) compilation.updateAsset(name, (source) => source, { minimized: true });
        });
      });
    },
  };
}

/** The folder that a web server hands out: the functions for Excel, the task pane page for Excel, the local page. */
function site(mode, env) {
  const config = base("site", mode);
  const page = (filename, template, chunks) => new HtmlPlugin({ filename, template, chunks, inject: "body", scriptLoading: "defer", minify: false });
  return {
    ...config,
    target: ["web", "es2020"],
    entry: {
      functions: "./src/functions/entry.ts",
      // In Excel the functions and the pane share one page: they must share the list of problems, and so its module.
      taskpane: { import: "./src/pane/excel.tsx", dependOn: "functions" },
      host: "./src/host/page/entry.ts",
    },
    output: {
      path: path.resolve(root, env.site ?? "dist/site"),
      filename: "[name].js",
      chunkFilename: "[name].js",
      assetModuleFilename: "assets/[name][ext]",
      publicPath: "auto",
      clean: true,
    },
    optimization: { splitChunks: false },
    module: {
      rules: [...config.module.rules, { test: /\.css$/, use: [MiniCssExtractPlugin.loader, "css-loader"] }],
    },
    plugins: [
      new MiniCssExtractPlugin({ filename: "[name].css", chunkFilename: "[name].css" }),
      // Excel's shared runtime loads the functions first and the pane after them.
      page("taskpane.html", "src/pane/taskpane.html", ["functions", "taskpane"]),
      page("index.html", "src/host/page/index.html", ["host"]),
      new CopyPlugin({
        patterns: [
          { from: "src/functions/generated/functions.json", to: "functions.json" },
          { from: "manifest/*.png", to: "assets/[name][ext]" },
          { from: "samples/*.xlsx", to: "samples/[name][ext]" },
          { from: "src/functions/generated/help.html", to: "help.html" },
        ],
      }),
      leaveAsItIs("host.js"),
      withoutHyphenation(),
    ],
    devServer: { port: 3000, hot: false, client: { overlay: false }, static: false, devMiddleware: { publicPath: "/" } },
  };
}

/** The command line: what watches, what the commands are, and the calculation engine, each in a file that is loaded when it is needed. No browser. */
function node(mode, env) {
  const config = base("node", mode);
  return {
    ...config,
    target: "node20",
    entry: { ledger: "./src/cli/start.ts" },
    // The program starts itself a second time, from where it lies, and keeps its compiled code there.
    node: { __dirname: false, __filename: false },
    devtool: false,
    output: { path: path.resolve(root, env.node ?? "dist/node"), filename: "[name].cjs", chunkFilename: "[name].cjs", clean: true },
    optimization: { minimize: false, splitChunks: false, chunkIds: "named" },
    plugins: [withoutHyphenation()],
  };
}

module.exports = (env = {}, argv = {}) => {
  const mode = argv.mode ?? "production";
  return [site(mode, env), node(mode, env)];
};
