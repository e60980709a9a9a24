import fs from "node:fs";
import path from "node:path";
import { startHarness } from "../test/browser/harness";

/**
 * Takes the README's picture of the local page, samples/page.png: the first sample in the built page (`npm run build` comes
 * first), light, 1400 by 900 pixels. The picture is committed: run `npm run picture` after a change that shows in it.
 */
const PICTURE = path.join(__dirname, "../samples/page.png");
const WIDTH = 1400;
const HEIGHT = 900;
const LARGEST_BYTES = 300_000;
/** For the grid, which draws its cells after the values are there. */
const DRAWN_MS = 1500;

async function takePicture(): Promise<void> {
  const harness = await startHarness();
  try {
    const { page, outside, errors } = await harness.open("index.html", { width: WIDTH, height: HEIGHT, colorScheme: "light" });
    await page.waitForFunction(() => "algalLedger" in window);
    await page.evaluate(() => window.algalLedger.ready);
    await page.waitForTimeout(DRAWN_MS);
    if (outside.length + errors.length > 0) throw new Error(["The page is not as it should be:", ...outside, ...errors].join("\n"));
    const bytes = await page.screenshot({ scale: "css" });
    if (bytes.length > LARGEST_BYTES) throw new Error(`The picture has ${bytes.length} bytes; at most ${LARGEST_BYTES} are wanted.`);
    fs.writeFileSync(PICTURE, bytes);
    console.log(`samples/page.png: ${Math.round(bytes.length / 1000)} kB`);
  } finally {
    await harness.close();
  }
}

takePicture().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
