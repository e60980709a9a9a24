import { fileEnding } from "../../src/files/file-ending";
import { writeBook } from "../../src/files/new-book";
import { handMadeParts } from "./hand-made";
import { merge } from "./merge-kit";
import { zipOf } from "./zip-bytes";

const PLAIN = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml";
const of = (type: string) => new Uint8Array(zipOf(handMadeParts({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }).map((part) => ({ ...part, content: String(part.content).replace(PLAIN, type) }))));

test.each([
  [PLAIN, "xlsx"],
  ["application/vnd.ms-excel.sheet.macroEnabled.main+xml", "xlsm"],
  ["application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml", "xltx"],
  ["application/vnd.ms-excel.template.macroEnabled.main+xml", "xltm"],
])("a file whose main part is %s ends with %s, also after an edit", async (type, ending) => {
  const original = of(type);
  expect(await fileEnding(original)).toBe(ending);
  expect(await fileEnding(await merge(original, ({ sheets: [log] }) => log?.cells.set("A1", { value: 2 })))).toBe(ending);
});

test("a new file ends with xlsx", async () => {
  expect(await fileEnding(await writeBook({ sheets: [{ name: "Log", cells: new Map() }], names: [], date1904: false }))).toBe("xlsx");
});
