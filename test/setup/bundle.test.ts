import fs from "node:fs";
import path from "node:path";
import { runModule, scriptUrl, temporaryFolder } from "./scripts";

const root = temporaryFolder();
const put = (name: string, text: string) => {
  fs.mkdirSync(path.dirname(path.join(root, name)), { recursive: true });
  fs.writeFileSync(path.join(root, name), text);
};
// A builder of our own in the place of the real one, which takes a minute: it notes what it was asked and writes what is asked for.
put(
  "node_modules/webpack/bin/webpack.js",
  `const fs = require("node:fs");
  fs.appendFileSync("asked", process.argv.slice(2).join(" ") + "\\n");
  if (fs.readFileSync("src/entry.ts", "utf8") === "broken") process.exit(2);
  fs.mkdirSync("dist/site", { recursive: true });
  fs.writeFileSync("dist/site/index.html", "page");`,
);
put("src/entry.ts", "one");
put("webpack.config.js", "");

async function bundle(): Promise<{ result: unknown; asked: number }> {
  const { shown } = await runModule(`
    import { bundle } from ${JSON.stringify(scriptUrl("bundle.mjs"))};
    try { await bundle("site", ${JSON.stringify(root)}); show("built"); } catch (error) { show(error.name + ": " + error.message); }`);
  return { result: shown[0], asked: fs.readFileSync(path.join(root, "asked"), "utf8").trim().split("\n").length };
}

describe("the build before npm start and npm test", () => {
  it("is made once, and again only when a source changes or the result is gone", async () => {
    expect(await bundle()).toEqual({ result: "built", asked: 1 });
    expect(fs.readFileSync(path.join(root, "asked"), "utf8")).toBe("--config-name site\n");
    fs.utimesSync(path.join(root, "src/entry.ts"), new Date(), new Date());
    expect(await bundle()).toEqual({ result: "built", asked: 1 });
    put("src/entry.ts", "two");
    expect(await bundle()).toEqual({ result: "built", asked: 2 });
    put("samples/book.xlsx", "a new sample");
    expect(await bundle()).toEqual({ result: "built", asked: 3 });
    fs.rmSync(path.join(root, "dist/site/index.html"));
    expect(await bundle()).toEqual({ result: "built", asked: 4 });
  });

  it("is tried again after it has failed", async () => {
    put("src/entry.ts", "broken");
    const sentence = "Stop: The build did not work; the messages above say where.";
    expect(await bundle()).toEqual({ result: sentence, asked: 5 });
    expect(await bundle()).toEqual({ result: sentence, asked: 6 });
    put("src/entry.ts", "three");
    expect(await bundle()).toEqual({ result: "built", asked: 7 });
  });
});
