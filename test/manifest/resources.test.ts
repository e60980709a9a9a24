import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { changed, around, lineOf, manifest, sentences } from "./real";
import { pngSize } from "../../scripts/manifest/icons";
import { find, readXml } from "../../scripts/manifest/element";
import { resourceValue } from "../../scripts/manifest/resources";
import { setup } from "../../src/words/setup";

describe("the check of a manifest's resources", () => {
  const broken: [string, string, string, string[]][] = [
    ["a resid without a resource", '<Label resid="Group.Label"/>', '<Label resid="Group.Name"/>', [
      `${lineOf('<Label resid="Group.Label"/>')}: ov:Label refers to "Group.Name", and Resources has no such id.`,
      'The resource "Group.Label" is not used by any element.',
    ]],
    ["a resource that nothing uses", "</bt:Urls>", '<bt:Url id="Spare.Url" DefaultValue="https://localhost:3000/spare.html"/></bt:Urls>', [
      'The resource "Spare.Url" is not used by any element.',
    ]],
    ["a resource id that stands twice", 'bt:String id="GetStarted.Title"', 'bt:String id="Open.Label"', [
      'ov:Title refers to "GetStarted.Title", and Resources has no such id.',
      'The resource id "Open.Label" stands twice.',
    ]],
    ["a resource in the wrong list", '<Description resid="Open.Description"/>', '<Description resid="Open.Label"/>', [
      'ov:Description refers to "Open.Label", which should stand in bt:LongStrings and stands in bt:ShortStrings.',
      'The resource "Open.Description" is not used by any element.',
    ]],
    ["a control with the id of the group", 'id="AlgalLedger.Open"', 'id="AlgalLedger.Group"', ['The id "AlgalLedger.Group" stands on two groups or controls.']],
    ["a plain http address", 'bt:Url id="Help.Url" DefaultValue="https:', 'bt:Url id="Help.Url" DefaultValue="http:', [
      '"http://localhost:3000/help.html" should begin with https://.',
      '"http://localhost:3000/help.html" should lie under https://localhost:3000/, where the add-in\'s page is.',
    ]],
    ["a placeholder host", 'SupportUrl DefaultValue="https://localhost:3000/help.html"', 'SupportUrl DefaultValue="https://www.contoso.com/help"', [
      '"https://www.contoso.com/help" is a placeholder, not an address of this add-in.',
      '"https://www.contoso.com/help" should lie under https://localhost:3000/',
    ]],
    ["something that is no address", 'SupportUrl DefaultValue="https://localhost:3000/help.html"', 'SupportUrl DefaultValue="help.html"', ['"help.html" is not a web address.']],
    ["a functions' page that is not the shared one", '<Page>\n              <SourceLocation resid="Taskpane.Url"/>', '<Page>\n              <SourceLocation resid="Help.Url"/>', [
      'The shared runtime needs the resource "Taskpane.Url" here too',
    ]],
    ["a pane that is not the shared page", '</TaskpaneId>\n                    <SourceLocation resid="Taskpane.Url"/>', '</TaskpaneId>\n                    <SourceLocation resid="Help.Url"/>', [
      'The shared runtime needs the resource "Taskpane.Url" here too',
    ]],
    ["a namespace with other signs", 'id="Functions.Namespace" DefaultValue="ALGAL"', 'id="Functions.Namespace" DefaultValue="Algal Ledger"', [
      'The functions\' namespace should be 2 to 32 capital letters, and is "Algal Ledger".',
    ]],
    ["metadata that nobody makes", "localhost:3000/functions.json", "localhost:3000/worksheet.json", ["The functions' metadata worksheet.json is neither built nor generated."]],
    ["an icon picture that is not there", 'bt:Image id="Icon.80" DefaultValue="https://localhost:3000/assets/icon-80.png"', 'bt:Image id="Icon.80" DefaultValue="https://localhost:3000/assets/icon-81.png"', [
      "The icon icon-81.png is not in the manifest folder.",
      "The icon icon-81.png is not in the manifest folder.",
    ]],
    ["an icon with other pixels than it stands for", '<IconUrl DefaultValue="https://localhost:3000/assets/icon-32.png"/>', '<IconUrl DefaultValue="https://localhost:3000/assets/icon-80.png"/>', [
      `${lineOf("<IconUrl")}: The icon icon-80.png should be 32 by 32 pixels, and is 80 by 80.`,
    ]],
  ];

  it.each(broken)("reports %s", (_rule, from, to, expected) => {
    const found = sentences(changed(from, to));
    expect(found).toHaveLength(expected.length);
    expected.forEach((sentence, at) => expect(found[at]).toContain(sentence));
  });

  it("reports an id of more than 32 characters, wherever it is written", () => {
    const long = "a".repeat(33);
    const found = sentences(manifest.replaceAll("GetStarted.Title", long));
    expect(found.map((sentence) => sentence.replace(/^\d+: /, ""))).toEqual([
      "resid of ov:Title should have at most 32 characters, and has 33.",
      "id of bt:String should have at most 32 characters, and has 33.",
    ]);
  });

  it("reports a ribbon icon without a size that Excel needs, and one with a size twice", () => {
    const image = '<bt:Image size="80" resid="Icon.80"/>';
    const [before = "", after = ""] = manifest.split(/<bt:Image size="80" resid="Icon.80"\/>(?=[^]*<bt:Image size="80")/);
    expect(sentences(`${before}${after}`)).toEqual([expect.stringContaining("An icon on the ribbon needs a picture of size 80.")]);
    expect(sentences(`${before}${image}${image}${after}`)).toEqual([
      expect.stringContaining("This icon has two pictures of size 80."),
      expect.stringContaining("This icon has two pictures of size 80."),
    ]);
  });

  it("reports an icon file that is no picture", () => {
    const icons = fs.mkdtempSync(path.join(os.tmpdir(), "algal-icons-"));
    fs.cpSync(around.icons, icons, { recursive: true });
    fs.writeFileSync(path.join(icons, "icon-128.png"), "not a picture");
    expect(sentences(manifest, { icons })).toEqual([expect.stringContaining("The icon icon-128.png is not a PNG picture.")]);
    fs.rmSync(icons, { recursive: true });
  });

  it("reads the size from the header of a picture", () => {
    expect(pngSize(fs.readFileSync(path.join(around.icons, "icon-16.png")))).toEqual({ width: 16, height: 16 });
    expect(pngSize(fs.readFileSync(path.join(around.icons, "icon.svg")))).toBeUndefined();
  });

  it("reports every address that the built folder does not have", () => {
    const site = fs.mkdtempSync(path.join(os.tmpdir(), "algal-site-"));
    fs.mkdirSync(path.join(site, "assets"));
    for (const size of [16, 32, 64, 80]) fs.copyFileSync(path.join(around.icons, `icon-${size}.png`), path.join(site, `assets/icon-${size}.png`));
    fs.copyFileSync(around.functions, path.join(site, "functions.json"));
    for (const name of ["functions.js", "taskpane.html"]) fs.writeFileSync(path.join(site, name), "");
    expect(sentences(manifest, { site })).toEqual([
      `${lineOf("<SupportUrl")}: "https://localhost:3000/help.html" is named, and the built folder has no help.html.`,
      `${lineOf('bt:Url id="Help.Url"')}: "https://localhost:3000/help.html" is named, and the built folder has no help.html.`,
    ]);
    fs.writeFileSync(path.join(site, "help.html"), "");
    expect(sentences(manifest, { site })).toEqual([]);
    fs.rmSync(site, { recursive: true });
  });
});

describe("what Excel shows of the add-in", () => {
  it("is what the catalogue of words says", () => {
    const { root } = readXml(manifest);
    if (!root) throw new Error("no manifest");
    const { addIn } = setup;
    expect(find(root, "DisplayName")?.attributes.get("DefaultValue")).toBe(addIn.name);
    expect(find(root, "Description")?.attributes.get("DefaultValue")).toBe(addIn.description);
    const shown = ["Functions.Namespace", "Group.Label", "Open.Label", "Open.Description", "GetStarted.Title", "GetStarted.Description"];
    expect(shown.map((id) => resourceValue(root, id))).toEqual([
      addIn.namespace, addIn.group, addIn.button, addIn.buttonHelp, addIn.readyTitle, addIn.ready,
    ]);
  });
});
