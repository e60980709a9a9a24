import type { BookConditionalFormat } from "./book-extras";
import { type ColourReader, colourReader } from "./colours";
import { attribute, isSpreadsheet, isTrue, walkXml } from "./xml";

type Difference = BookConditionalFormat["style"];

/** What conditional formats change, by the number that rules name: the dxfs of a styles part. */
export function readDifferences(xml: string, part: string, theme: readonly string[]): Difference[] {
  const found: Difference[] = [];
  const path: string[] = [];
  const colour: ColourReader = colourReader(theme);
  walkXml(xml, part, {
    open(tag) {
      const parent = path[path.length - 1];
      path.push(isSpreadsheet(tag) ? tag.local : "");
      if (path[1] !== "dxfs") return;
      const current = found[found.length - 1];
      if (tag.local === "dxf" && parent === "dxfs") found.push({});
      else if (!current) return;
      else if (parent === "font" && tag.local === "b") current.bold = isTrue(attribute(tag, "val") ?? "1");
      else if (parent === "font" && tag.local === "i" && isTrue(attribute(tag, "val") ?? "1")) current.italic = true;
      else if (parent === "font" && tag.local === "color") put(current, "color", colour(tag));
      // Here, other than in cells, it is the ground that fills.
      else if (parent === "patternFill" && tag.local === "bgColor") put(current, "fill", colour(tag));
      else if (parent === "patternFill" && tag.local === "fgColor") put(current, "fill", current.fill ?? colour(tag));
    },
    close() {
      path.pop();
    },
  });
  return found;
}

function put(style: Difference, name: "color" | "fill", colour: string | undefined): void {
  if (colour !== undefined) style[name] = colour;
}
