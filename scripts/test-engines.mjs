import { ensureOffice, ensurePackages } from "./setup.mjs";
import { onModernNode } from "./node-check.mjs";

/** `npm run test:engines`: the copies with plain formulas of the samples and of 200 invented logs, calculated by another spreadsheet program and held against ours. */
onModernNode(async () => {
  await ensurePackages();
  const { runJest } = await import("./test-run.mjs");
  process.exitCode = await runJest(["--runInBand", "test/native/judge.test.ts"], { ...process.env, SOFFICE_PATH: await ensureOffice(), JUDGED_LOGS: process.env.JUDGED_LOGS ?? "200" });
});
