import { onModernNode } from "./node-check.mjs";

/** `npm test`: everything that the tests need, then the checks, then the tests. What follows `--` goes to jest. */
onModernNode(async () => {
  process.exitCode = await (await import("./test-run.mjs")).runTests(process.argv.slice(2));
});
