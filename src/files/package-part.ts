import { encodeAttribute } from "./xml";

export const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
export const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006";
/** The part that says of what kind each of the others is. */
export const CONTENT_TYPES = "[Content_Types].xml";
export const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** What one part refers to: the type of the relationship, and where it leads to. */
export interface Link {
  type: string;
  target: string;
}

/** The relationships of a part; they are named rId1, rId2 in their order. */
export function relationships(links: readonly Link[]): string {
  const written = links.map(({ type, target }, i) => `<Relationship Id="rId${i + 1}" Type="${type}" Target="${encodeAttribute(target)}"/>`);
  return `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${written.join("")}</Relationships>`;
}

/** The part that says what kind each of the others is. */
export function contentTypes(types: readonly (readonly [part: string, type: string])[]): string {
  const own = types.map(([part, type]) => `<Override PartName="/${part}" ContentType="${type}"/>`).join("");
  return `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${own}</Types>`;
}
