import fs from "node:fs";
import { runWatched } from "../../src/cli/watched";
import { cli } from "../../src/words/cli";
import { temporaryFolder } from "./run";

/** The process that watches another one, on small programs in the place of the command line. */
let place: ReturnType<typeof temporaryFolder>;
let written: string;

beforeEach(() => {
  place = temporaryFolder();
  written = "";
  jest.spyOn(process.stderr, "write").mockImplementation((piece) => {
    written += String(piece);
    return true;
  });
});
afterEach(() => {
  jest.restoreAllMocks();
  place.remove();
});

async function run(program: string, ...args: string[]): Promise<{ code: number; written: string }> {
  fs.writeFileSync(place.at("program.cjs"), program);
  const code = await runWatched(place.at("program.cjs"), args);
  return { code, written };
}

test.each([0, 1, 2])("exit code %i, the arguments and what is written to standard error come through", async (code) => {
  expect(await run(`process.stderr.write(process.argv.slice(2).join("|") + "\\n"); process.exitCode = ${code};`, "calc", "a b.xlsx")).toEqual({ code, written: "calc|a b.xlsx\n" });
});

test("one that takes longer than it asked for is stopped, with one sentence", async () => {
  const began = performance.now();
  expect(await run('process.stderr.write("at work"); process.send({ allowedMs: 1000 }, () => { for (;;); });')).toEqual({ code: 1, written: `${cli.tookTooLong(1)}\n` });
  expect(performance.now() - began).toBeLessThan(20_000);
});

test("one that is done in time is not", async () => {
  expect(await run('process.send({ allowedMs: 200 }, () => process.send({ allowedMs: 0 }, () => setTimeout(() => process.exit(2), 600)));')).toEqual({ code: 2, written: "" });
});

test("one that wants more memory than it is given ends with one sentence instead of a trace", async () => {
  expect(await run("const held = []; for (;;) held.push(new Array(1_000_000).fill(held.length + 0.5));")).toEqual({ code: 1, written: `${cli.tooMuchMemory}\n` });
}, 60_000);

test("one that is ended by something else says so in one sentence", async () => {
  expect(await run('process.kill(process.pid, "SIGKILL"); setTimeout(() => {}, 9999);')).toEqual({ code: 1, written: `${cli.fault("SIGKILL")}\n` });
});
