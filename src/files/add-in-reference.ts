import { VERSION } from "../words/hand-over";
import { HEAD, type Link, OFFICE, relationships } from "./package-part";

/** Of the add-in, as its manifest says; a test holds both against it. */
export const ADD_IN_ID = "18832894-2c42-46e4-9331-97c69396c40c";
export const ADD_IN_VERSION = `${VERSION}.0`;

export const EXTENSION = "http://schemas.microsoft.com/office/webextensions/webextension/2010/11";
export const PANES = "http://schemas.microsoft.com/office/webextensions/taskpanes/2010/11";
const LINK = "http://schemas.microsoft.com/office/2011/relationships";
const FOLDER = "xl/webextensions";

/**
 * Where Excel finds the add-in, [MS-OWEXML] 2.2.5. It is not in the public store, so there are two ways in: the keeper's own
 * installation, which Excel counts as that of a developer and which comes first as the README describes it, and the deployment by an
 * administrator, as the alternative.
 */
const STORES = [
  { store: "developer", storeType: "Registry" },
  { store: "EXCatalog", storeType: "EXCatalog" },
] as const;

const reference = ({ store, storeType }: (typeof STORES)[number]): string => `<we:reference id="${ADD_IN_ID}" version="${ADD_IN_VERSION}" store="${store}" storeType="${storeType}"/>`;

/** The parts that make Excel offer the add-in when the workbook opens, each with its content type, if it needs one. */
export const ADD_IN_PARTS: readonly { readonly part: string; readonly xml: string; readonly type?: string }[] = [
  {
    part: `${FOLDER}/taskpanes.xml`,
    // Visible: only then does Excel offer the add-in to somebody who has not used it yet.
    xml: `${HEAD}<wetp:taskpanes xmlns:wetp="${PANES}"><wetp:taskpane dockstate="right" visibility="1" width="350" row="0"><wetp:webextensionref xmlns:r="${OFFICE}/relationships" r:id="rId1"/></wetp:taskpane></wetp:taskpanes>`,
    type: "application/vnd.ms-office.webextensiontaskpanes+xml",
  },
  { part: `${FOLDER}/_rels/taskpanes.xml.rels`, xml: relationships([{ type: `${LINK}/webextension`, target: "webextension1.xml" }]) },
  {
    part: `${FOLDER}/webextension1.xml`,
    xml: `${HEAD}<we:webextension xmlns:we="${EXTENSION}" id="{${ADD_IN_ID.toUpperCase()}}">${reference(STORES[0])}<we:alternateReferences>${reference(STORES[1])}</we:alternateReferences><we:properties/><we:bindings/><we:snapshot xmlns:r="${OFFICE}/relationships"/></we:webextension>`,
    type: "application/vnd.ms-office.webextension+xml",
  },
];

/** Leads from the file itself, not from the workbook, to the panes. */
export const ADD_IN_LINK: Link = { type: `${LINK}/webextensiontaskpanes`, target: `${FOLDER}/taskpanes.xml` };
