import { onModernNode } from "./node-check.mjs";

/** `npm run build [-- --base https://host/path/]`: the static folder that Excel loads (dist/site), with its manifest, and the command line. */
onModernNode(async () => {
  const { ensurePackages, PROJECT } = await import("./setup.mjs");
  const { bundle } = await import("./bundle.mjs");
  const { run, stepper, Stop } = await import("./run.mjs");
  const { words } = await import("./setup-words.mjs");
  const given = process.argv.slice(2);
  if (given.length > 0 && !(given.length === 2 && given[0] === "--base")) throw new Stop(words.unknownOption(given.join(" "), words.buildUsage));
  const step = stepper(4);
  step(words.packages);
  await ensurePackages();
  step(words.building.site);
  await bundle("site");
  step(words.building.node);
  await bundle("node");
  step(words.testManifest);
  const { code } = await run([process.execPath, "scripts/ts.cjs", "scripts/place-manifest.ts", ...given], { cwd: PROJECT });
  if (code !== 0) throw new Stop(words.testManifestFailed);
});
