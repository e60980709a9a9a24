import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { chromium } from "playwright-core";

/**
 * Draws manifest/icon.svg as manifest/icon-N.png at every size that the manifest and a listing need. The drawing simplifies
 * itself below 32 pixels, by a media query in the SVG. The pictures are committed: run this only after changing the drawing.
 */
const ICON_SIZES = [16, 32, 64, 80, 128];
const FOLDER = path.join(__dirname, "../manifest");
const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

async function makeIcons(): Promise<void> {
  const drawing = fs.readFileSync(path.join(FOLDER, "icon.svg"), "utf8");
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-icons-"));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROME_PATH ?? "/usr/bin/chromium",
    headless: true,
    args: FLAGS,
    deviceScaleFactor: 1,
  });
  try {
    const page = await context.newPage();
    const address = `data:image/svg+xml;base64,${Buffer.from(drawing).toString("base64")}`;
    for (const size of ICON_SIZES) {
      await page.setViewportSize({ width: size, height: size });
      await page.setContent(`<style>html, body { margin: 0; background: transparent } img { display: block }</style><img src="${address}" width="${size}" height="${size}">`);
      await page.locator("img").evaluate((image) => (image as HTMLImageElement).decode());
      await page.screenshot({ path: path.join(FOLDER, `icon-${size}.png`), omitBackground: true, clip: { x: 0, y: 0, width: size, height: size } });
      console.log(`manifest/icon-${size}.png`);
    }
  } finally {
    await context.close();
    fs.rmSync(profile, { recursive: true, force: true });
  }
}

makeIcons().catch((error: Error) => {
  console.error(error.message);
  process.exit(1);
});
