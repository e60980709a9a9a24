import { decodeText, isSpreadsheet, walkXml } from "./xml";

/** The texts that the cells of a workbook share, in order. Rich text gives its letters; reading aids beside it are left out. */
export function readTextPart(xml: string, part: string): string[] {
  const texts: string[] = [];
  let text = "";
  let inText = false;
  let phonetic = 0;
  walkXml(xml, part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "si") text = "";
      else if (tag.local === "rPh") phonetic += 1;
      else if (tag.local === "t") inText = phonetic === 0;
    },
    text(piece) {
      if (inText) text += piece;
    },
    close(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "t") inText = false;
      else if (tag.local === "rPh") phonetic -= 1;
      else if (tag.local === "si") texts.push(decodeText(text));
    },
  });
  return texts;
}
