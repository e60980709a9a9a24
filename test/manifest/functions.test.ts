import fs from "node:fs";
import { checkFunctions } from "../../scripts/manifest/functions";
import { openReport } from "../../scripts/manifest/report";
import { functionsFile } from "./real";

interface Metadata {
  functions: { id: string; name: string; description?: string; helpUrl?: string; parameters?: { name: string; description?: string }[] }[];
}

const BASE = "https://localhost:3000/";
const real = fs.readFileSync(functionsFile, "utf8");

/** The sentences for the real metadata with a change in it. */
function sentences(change: (metadata: Metadata) => void): string[] {
  const metadata = JSON.parse(real) as Metadata;
  change(metadata);
  return sentencesFor(`${JSON.stringify(metadata, null, 2)}\n`);
}

function sentencesFor(text: string): string[] {
  const { report, checkIn } = openReport();
  checkFunctions(text, BASE, checkIn("functions.json"));
  return report().findings.map(({ line, sentence }) => `${line}: ${sentence}`);
}

const netVolume = (metadata: Metadata) => {
  const found = metadata.functions.find(({ id }) => id === "NET_VOLUME");
  if (!found?.parameters) throw new Error("NET_VOLUME is not in the metadata");
  return { ...found, entry: found, parameters: found.parameters };
};
const line = (id: string) => real.slice(0, real.indexOf(`"id": "${id}"`)).split("\n").length;

describe("the check of the functions' metadata", () => {
  it("finds nothing wrong with the generated one", () => {
    expect(sentencesFor(real)).toEqual([]);
  });

  it("reports text that is no list of functions", () => {
    const sentence = "1: The functions' metadata is not JSON with a list of functions.";
    expect(sentencesFor("{")).toEqual([sentence]);
    expect(sentencesFor("{}")).toEqual([sentence]);
    expect(sentencesFor('{"functions": []}')).toEqual(["1: The functions' metadata has no function."]);
  });

  it("reports a name that is not capital words joined by underscores", () => {
    const found = sentences((metadata) => (netVolume(metadata).entry.name = "netVolume"));
    expect(found).toEqual([`${line("NET_VOLUME")}: A function's name should be capital words joined by underscores, such as NET_VOLUME, and is "netVolume".`]);
  });

  it("reports an id of less than 3 or more than 64 characters", () => {
    expect(sentences((metadata) => (netVolume(metadata).entry.id = `N_${"A".repeat(63)}`))).toEqual([
      expect.stringContaining(`A function's id should have 3 to 64 characters: "N_${"A".repeat(63)}" has 65.`),
    ]);
    expect(sentences((metadata) => (netVolume(metadata).entry.id = "N"))).toEqual([
      expect.stringContaining('A function\'s id should have 3 to 64 characters: "N" has 1.'),
      expect.stringContaining('A function\'s id should be capital words joined by underscores, such as NET_VOLUME, and is "N".'),
    ]);
  });

  it("reports two functions of one name, whatever their capitals", () => {
    const found = sentences((metadata) => metadata.functions.push({ ...netVolume(metadata).entry, id: "Net_Volume" }));
    expect(found).toEqual([
      expect.stringContaining('A function\'s id should be capital words joined by underscores, such as NET_VOLUME, and is "Net_Volume".'),
      expect.stringContaining("The function Net_Volume stands twice (capitals make no difference)."),
    ]);
  });

  it("reports a description that is missing or has more than 128 characters", () => {
    expect(sentences((metadata) => delete netVolume(metadata).entry.description)).toEqual([
      expect.stringContaining("The description of NET_VOLUME should have 1 to 128 characters, and has 0."),
    ]);
    expect(sentences((metadata) => (netVolume(metadata).entry.description = "a".repeat(129)))).toEqual([
      expect.stringContaining("The description of NET_VOLUME should have 1 to 128 characters, and has 129."),
    ]);
  });

  it("reports a parameter without its description, and two parameters of one name", () => {
    expect(sentences((metadata) => (netVolume(metadata).parameters[0]!.description = " "))).toEqual([
      expect.stringMatching(/The description of \w+ in NET_VOLUME should have 1 to 128 characters, and has 0\.$/),
    ]);
    expect(sentences((metadata) => (netVolume(metadata).parameters[1]!.name = netVolume(metadata).parameters[0]!.name.toUpperCase()))).toEqual([
      expect.stringMatching(/Each parameter of NET_VOLUME needs a name of its own, and "\w+" is not one\.$/),
    ]);
    expect(sentences((metadata) => delete netVolume(metadata).entry.parameters)).toEqual([expect.stringContaining("NET_VOLUME has no list of parameters.")]);
  });

  it("reports a help link that is not https or lies elsewhere", () => {
    expect(sentences((metadata) => (netVolume(metadata).entry.helpUrl = "http://localhost:3000/help.html"))).toEqual([
      expect.stringContaining('The help link of NET_VOLUME should be an https address, and is "http://localhost:3000/help.html".'),
    ]);
    expect(sentences((metadata) => (netVolume(metadata).entry.helpUrl = "https://elsewhere.org/help.html"))).toEqual([
      expect.stringContaining('"https://elsewhere.org/help.html" should lie under https://localhost:3000/'),
    ]);
  });
});
