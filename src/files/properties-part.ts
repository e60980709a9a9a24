import type { NewBook } from "./new-book-model";
import { HEAD, OFFICE, PACKAGE } from "./package-part";
import { encodeText } from "./xml";

const CREATOR = "Algal Ledger";
const FIXED_DATE = "2024-01-01T00:00:00Z";
/** LibreOffice shows the stored texts of formulas that it does not know only in files of a program that it trusts, by this name. */
const TRUSTED_PROGRAM = "Microsoft Excel";

/** Title, subject, who made the file and when. */
export function coreProperties({ properties = {} }: NewBook): string {
  const { title, subject, description, created = FIXED_DATE } = properties;
  const text = (element: string, content: string | undefined) => (content === undefined ? "" : `<${element}>${encodeText(content)}</${element}>`);
  const date = (element: string) => `<dcterms:${element} xsi:type="dcterms:W3CDTF">${encodeText(created)}</dcterms:${element}>`;
  return [
    HEAD,
    `<cp:coreProperties xmlns:cp="${PACKAGE}/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">`,
    text("dc:title", title),
    text("dc:subject", subject),
    text("dc:creator", CREATOR),
    text("dc:description", description),
    text("cp:lastModifiedBy", CREATOR),
    date("created"),
    date("modified"),
    "</cp:coreProperties>",
  ].join("");
}

export const PROGRAM_PROPERTIES = `${HEAD}<Properties xmlns="${OFFICE}/extended-properties"><Application>${TRUSTED_PROGRAM}</Application></Properties>`;
