import { runModule, scriptUrl } from "./scripts";

interface Machine {
  platform: string;
  env: Record<string, string>;
  files: string[];
  isRoot?: boolean;
  /** Files that appear when apt-get has installed something. */
  installs?: string[];
  /** Exit code and words of a command, by its first words. */
  answers?: Record<string, { code: number; output: string }>;
}

/** Looks for a program on an invented machine. The commands that it would run are noted instead of run. */
async function ensure(kind: "Browser" | "Office", machine: Machine) {
  const { shown, out } = await runModule(`
    import { ensure${kind} } from ${JSON.stringify(scriptUrl("setup.mjs"))};
    const given = ${JSON.stringify(machine)};
    const files = new Set(given.files);
    const commands = [];
    const run = async (command) => {
      const line = command.join(" ");
      commands.push(line);
      const key = Object.keys(given.answers ?? {}).find((start) => line.startsWith(start));
      if (line.startsWith("apt-get install") && !key) for (const file of given.installs ?? []) files.add(file);
      return key ? given.answers[key] : { code: 0, output: "" };
    };
    const place = await ensure${kind}({ platform: given.platform, env: given.env, isRoot: given.isRoot ?? false, exists: (file) => files.has(file), run })
      .catch((error) => error.name + ": " + error.message);
    show({ place, commands });`);
  return { ...(shown[0] as { place: string; commands: string[] }), out };
}

const debian = { platform: "linux", env: { PATH: "/usr/local/bin:/usr/bin" }, files: ["/usr/bin/apt-get"], isRoot: true };

describe("the browser for the tests", () => {
  it("is the one that CHROME_PATH names, before all others", async () => {
    const found = await ensure("Browser", { platform: "linux", env: { CHROME_PATH: "/opt/mine/chrome", PATH: "/usr/bin" }, files: ["/opt/mine/chrome", "/usr/bin/chromium"] });
    expect(found).toEqual({ place: "/opt/mine/chrome", commands: ["/opt/mine/chrome --version"], out: "      found /opt/mine/chrome\n" });
  });

  it("is not silently another one when CHROME_PATH names nothing", async () => {
    const found = await ensure("Browser", { platform: "linux", env: { CHROME_PATH: "/opt/mine/chrome", PATH: "/usr/bin" }, files: ["/usr/bin/chromium"] });
    expect(found.place).toBe('Stop: The variable CHROME_PATH names "/opt/mine/chrome", and there is no such program. Correct it or unset it.');
  });

  it("is found in the PATH and in the usual places of each system", async () => {
    const inPath = await ensure("Browser", { platform: "linux", env: { PATH: "/home/me/bin" }, files: ["/home/me/bin/google-chrome"] });
    const onLinux = await ensure("Browser", { platform: "linux", env: { PATH: "" }, files: ["/snap/bin/chromium"] });
    const chromeForMac = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";
    const onMac = await ensure("Browser", { platform: "darwin", env: {}, files: [chromeForMac] });
    const edge = "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe";
    const onWindows = await ensure("Browser", { platform: "win32", env: { "ProgramFiles(x86)": "C:\\Program Files (x86)" }, files: [edge] });
    expect([inPath, onLinux, onMac, onWindows].map(({ place }) => place)).toEqual(["/home/me/bin/google-chrome", "/snap/bin/chromium", chromeForMac, edge]);
    // Asking chrome.exe for its version would open a window.
    expect(onWindows.commands).toEqual([]);
  });

  it("is installed by apt-get on Debian as root, after an update of the lists", async () => {
    const found = await ensure("Browser", { ...debian, installs: ["/usr/bin/chromium"] });
    expect(found.place).toBe("/usr/bin/chromium");
    expect(found.commands).toEqual(["apt-get update", "apt-get install -y --no-install-recommends chromium fonts-liberation", "/usr/bin/chromium --version"]);
    expect(found.out).toBe("      installing chromium fonts-liberation with apt-get: 1 to 3 minutes\n      found /usr/bin/chromium\n");
  });

  it("is not installed for a user who is not root: a sentence says how", async () => {
    const found = await ensure("Browser", { ...debian, isRoot: false });
    expect(found).toMatchObject({
      place: "Stop: No Chromium, Chrome or Edge was found. Install one (Debian and Ubuntu: sudo apt-get install chromium) or set CHROME_PATH to its program file, and run the same command again.",
      commands: [],
    });
  });

  it("is asked for in a sentence when PATH is empty and nothing is in the usual places", async () => {
    const sentences = await Promise.all(["linux", "darwin", "win32", "freebsd"].map(async (platform) => (await ensure("Browser", { platform, env: { PATH: "" }, files: [] })).place));
    for (const sentence of sentences) expect(sentence).toMatch(/^Stop: No Chromium, Chrome or Edge was found\. Install one.* set CHROME_PATH to its program file.*, and run the same command again\.$/);
  });

  it("is not taken when it does not run, as a program that only points to another package", async () => {
    const found = await ensure("Browser", { ...debian, isRoot: false, files: ["/usr/bin/chromium-browser"], answers: { "/usr/bin/chromium-browser": { code: 1, output: "needs the snap" } } });
    expect(found.place).toMatch(/^Stop: No Chromium, Chrome or Edge was found/);
  });

  it("cannot be installed without a network, and one sentence says so", async () => {
    const found = await ensure("Browser", { ...debian, answers: { "apt-get update": { code: 100, output: "Temporary failure resolving 'deb.debian.org'" } } });
    expect(found.place).toBe(
      "Stop: chromium fonts-liberation could not be fetched because the network does not answer. Connect to the internet (or set npm's registry or proxy) and run the same command again.",
    );
  });
});

describe("LibreOffice for the tests", () => {
  it("is installed by apt-get on Debian as root, without what is only recommended", async () => {
    const found = await ensure("Office", { ...debian, installs: ["/usr/bin/soffice"] });
    expect(found.place).toBe("/usr/bin/soffice");
    expect(found.commands).toEqual(["apt-get update", "apt-get install -y --no-install-recommends libreoffice-calc", "/usr/bin/soffice --version"]);
  });

  it("is asked for in a sentence elsewhere", async () => {
    const onMac = await ensure("Office", { platform: "darwin", env: {}, files: [] });
    expect(onMac.place).toBe(
      "Stop: LibreOffice was not found. Install it from https://www.libreoffice.org into Applications, or set SOFFICE_PATH to its soffice, and run the same command again.",
    );
  });

  it("stops with apt-get's own failure named", async () => {
    const found = await ensure("Office", { ...debian, answers: { "apt-get install": { code: 100, output: "E: Unmet dependencies" } } });
    expect(found.place).toBe("Stop: apt-get could not install libreoffice-calc; its own words are above. Install it by hand and run the same command again.");
  });
});
