import fs from "node:fs";
import path from "node:path";
import { ADD_IN_ID, ADD_IN_VERSION } from "../../src/files/add-in-reference";
import { type Archive, openArchive } from "../../src/files/archive";
import { dropAddInReference } from "../../src/files/drop-add-in-reference";
import { PartEdits } from "../../src/files/hand-over/part-edits";
import { writeBook } from "../../src/files/new-book";
import type { NewCell } from "../../src/files/new-book-model";
import { readBook } from "../../src/files/read-book";
import { readRelationships } from "../../src/files/relationships";
import { attribute, walkXml, type XmlTag } from "../../src/files/xml";
import { host } from "../../src/words/host";
import { handMade } from "./hand-made";
import { partText, zipEntries } from "./zip-bytes";

const plainBook = (formula: string | null = "ALGAL.SEAWATER(A1)") => writeBook({ sheets: [{ name: "Log", cells: new Map<string, NewCell>([["A1", { value: 1 }], ["B1", { value: 2, ...(formula === null ? {} : { formula }) }]]) }], names: [], date1904: false });
const names = (file: Uint8Array) => zipEntries(file).map(({ name }) => name);

/** The add-ins to which the task panes of a file lead, by following the links as a reader of the file does. */
async function offered(file: Uint8Array): Promise<{ visible: string | undefined; references: Record<string, string>[] }[]> {
  const archive = await openArchive(file);
  const panes = (await readRelationships(archive, "")).filter(({ kind }) => kind === "webextensiontaskpanes");
  const found: { visible: string | undefined; references: Record<string, string>[] }[] = [];
  for (const { part } of panes) {
    const links = await readRelationships(archive, part);
    let visible: string | undefined;
    for (const tag of await tags(archive, part)) {
      if (tag.local === "taskpane") visible = attribute(tag, "visibility");
      if (tag.local !== "webextensionref") continue;
      const extension = links.find(({ id, kind }) => kind === "webextension" && id === attribute(tag, "r:id"))?.part ?? "no such link";
      const references = (await tags(archive, extension)).filter(({ local }) => local === "reference");
      found.push({ visible, references: references.map(({ attributes }) => Object.fromEntries(Object.values(attributes).map(({ name, value }) => [name, value]))) });
    }
  }
  return found;
}

async function tags(archive: Archive, part: string): Promise<XmlTag[]> {
  const all: XmlTag[] = [];
  walkXml(await archive.text(part), part, { open: (tag) => all.push({ ...tag }) });
  return all;
}

async function dropped(file: Uint8Array): Promise<Uint8Array> {
  const archive = await openArchive(file);
  const edits = new PartEdits(archive);
  await dropAddInReference(archive, edits);
  return archive.withParts(edits.changed(), edits.dropped);
}

test("id and version are those of the manifest", () => {
  const manifest = fs.readFileSync(path.join(__dirname, "../../manifest/manifest.xml"), "utf8");
  expect([/<Id>(.*)<\/Id>/.exec(manifest)?.[1], /<Version>(.*)<\/Version>/.exec(manifest)?.[1]]).toEqual([ADD_IN_ID, ADD_IN_VERSION]);
});

describe("a new workbook", () => {
  test("offers the add-in, as the keeper installs it and as an administrator deploys it", async () => {
    expect(await offered(await plainBook())).toEqual([
      {
        visible: "1",
        references: [
          { id: ADD_IN_ID, version: ADD_IN_VERSION, store: "developer", storeType: "Registry" },
          { id: ADD_IN_ID, version: ADD_IN_VERSION, store: "EXCatalog", storeType: "EXCatalog" },
        ],
      },
    ]);
  });

  test.each(["A1*2", null])("does not, where no formula of ours is in it: %s", async (formula) => {
    const file = await plainBook(formula);
    expect(await offered(file)).toEqual([]);
    expect(names(file).filter((name) => name.includes("webextension"))).toEqual([]);
  });

  test("says of what kind the parts are", async () => {
    const types = partText(await plainBook(), "[Content_Types].xml");
    expect(types).toContain('<Override PartName="/xl/webextensions/taskpanes.xml" ContentType="application/vnd.ms-office.webextensiontaskpanes+xml"/>');
    expect(types).toContain('<Override PartName="/xl/webextensions/webextension1.xml" ContentType="application/vnd.ms-office.webextension+xml"/>');
  });

  test.each(host.samples.map(({ file }) => file))("and the sample %s does so, too", async (file) => {
    const [pane] = await offered(fs.readFileSync(path.join(__dirname, "../../samples", file)));
    expect(pane?.references[0]?.id).toBe(ADD_IN_ID);
  });
});

describe("the reference is dropped", () => {
  test("with its parts, their links and their types, and nothing else", async () => {
    const before = await plainBook();
    const after = await dropped(before);
    expect(await offered(after)).toEqual([]);
    expect(names(before).filter((name) => !names(after).includes(name))).toEqual(["xl/webextensions/taskpanes.xml", "xl/webextensions/_rels/taskpanes.xml.rels", "xl/webextensions/webextension1.xml"]);
    expect(partText(after, "[Content_Types].xml")).not.toContain("webextension");
    expect(partText(after, "_rels/.rels")).not.toContain("webextension");
    const changed = zipEntries(after).filter(({ name, packed }) => !zipEntries(before).find((one) => one.name === name)?.packed.equals(packed));
    expect(changed.map(({ name }) => name)).toEqual(["[Content_Types].xml", "_rels/.rels"]);
    expect((await readBook(after)).sheets[0]?.cells.get("A1")?.value).toBe(1);
  });

  const OURS = ADD_IN_ID.toUpperCase();
  const we = (id: string) => `<x:webextension xmlns:x="http://schemas.microsoft.com/office/webextensions/webextension/2010/11" id="{1}"><x:reference id="${id}" version="1.0.0.0" store="en-US" storeType="OMEX"/></x:webextension>`;
  const pane = (id: string) => `<p:taskpane dockstate="right" visibility="0" width="300" row="1"><p:webextensionref xmlns:q="http://schemas.openxmlformats.org/officeDocument/2006/relationships" q:id="${id}"/></p:taskpane>`;
  const withPanes = (...ids: string[]) =>
    handMade({
      rows: "",
      parts: {
        "_rels/.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/><Relationship Id="w" Type="http://schemas.microsoft.com/office/2011/relationships/webextensiontaskpanes" Target="/xl/panes.xml"/></Relationships>`,
        "xl/panes.xml": `<p:taskpanes xmlns:p="http://schemas.microsoft.com/office/webextensions/taskpanes/2010/11">${ids.map((_, i) => pane(`e${i}`)).join("")}</p:taskpanes>`,
        "xl/_rels/panes.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${ids.map((_, i) => `<Relationship Id="e${i}" Type="http://schemas.microsoft.com/office/2011/relationships/webextension" Target="we${i}.xml"/>`).join("")}</Relationships>`,
        ...Object.fromEntries(ids.map((id, i) => [`xl/we${i}.xml`, we(id)])),
      },
    });

  test("and those to other add-ins stay, letter by letter", async () => {
    const before = withPanes("wa100000001", OURS, "wa100000002");
    const after = await dropped(before);
    expect(partText(after, "xl/panes.xml")).toBe(partText(before, "xl/panes.xml").replace(pane("e1"), ""));
    expect(names(before).filter((name) => !names(after).includes(name))).toEqual(["xl/we1.xml"]);
    expect(partText(after, "xl/_rels/panes.xml.rels")).not.toContain("we1.xml");
    expect(partText(after, "_rels/.rels")).toBe(partText(before, "_rels/.rels"));
  });

  test.each([["a file with other add-ins only", () => withPanes("wa100000001")], ["a file without any", () => handMade({ rows: "" })]])("and %s is not changed", async (_what, made) => {
    const before = made();
    expect(zipEntries(await dropped(before)).map(({ name, packed }) => [name, packed])).toEqual(zipEntries(before).map(({ name, packed }) => [name, packed]));
  });
});
