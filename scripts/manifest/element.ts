import { SaxesParser } from "saxes";

/** One element of the manifest. Names carry a fixed prefix for their namespace, whatever prefix the file itself uses. */
export interface Element {
  /** "OfficeApp", "ov:Hosts", "bt:Image"; an element of any other namespace is "{namespace}Name". */
  readonly name: string;
  /** Line of the opening bracket, from 1. */
  readonly line: number;
  /** "DefaultValue", "xsi:type"; declarations of namespaces are left out. */
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly Element[];
  /** Text directly inside, without the white space around it. */
  readonly text: string;
}

export interface XmlFault {
  readonly line: number;
  readonly message: string;
}

const PREFIX_OF: Readonly<Record<string, string>> = {
  "http://schemas.microsoft.com/office/appforoffice/1.1": "",
  "http://schemas.microsoft.com/office/taskpaneappversionoverrides": "ov:",
  "http://schemas.microsoft.com/office/officeappbasictypes/1.0": "bt:",
  "http://www.w3.org/2001/XMLSchema-instance": "xsi:",
};
const DECLARATIONS = "http://www.w3.org/2000/xmlns/";

interface Open {
  name: string;
  line: number;
  attributes: Map<string, string>;
  children: Element[];
  text: string;
}

/** The document as a tree, or where it is not well-formed (then there is no tree). */
export function readXml(source: string): { root?: Element; faults: readonly XmlFault[] } {
  const faults: XmlFault[] = [];
  const open: Open[] = [];
  let root: Element | undefined;
  let line = 1;
  const parser = new SaxesParser({ xmlns: true });
  parser.on("error", (error) => faults.push({ line: parser.line, message: error.message.replace(/^\d+:\d+: /, "").replace(/\.$/, "") }));
  parser.on("opentagstart", () => (line = parser.line));
  parser.on("opentag", (tag) => {
    const attributes = new Map<string, string>();
    for (const { uri, local, value } of Object.values(tag.attributes)) {
      if (uri !== DECLARATIONS && local !== "xmlns") attributes.set(uri === "" ? local : nameOf(uri, local), value);
    }
    open.push({ name: nameOf(tag.uri, tag.local), line, attributes, children: [], text: "" });
  });
  parser.on("text", (text) => {
    const here = open.at(-1);
    if (here) here.text += text;
  });
  parser.on("cdata", (text) => {
    const here = open.at(-1);
    if (here) here.text += text;
  });
  parser.on("closetag", () => {
    const closed = open.pop();
    if (!closed) return;
    const element: Element = { ...closed, text: closed.text.trim() };
    const parent = open.at(-1);
    if (parent) parent.children.push(element);
    else root = element;
  });
  parser.write(source).close();
  return faults.length > 0 ? { faults } : { root, faults };
}

/** Every element below and including this one, in the order of the file. */
export function* everyElement(element: Element): Generator<Element> {
  yield element;
  for (const child of element.children) yield* everyElement(child);
}

/** The first element under `from` that is reached by these names. */
export function find(from: Element, ...names: string[]): Element | undefined {
  let here: Element | undefined = from;
  for (const name of names) here = here?.children.find((child) => child.name === name);
  return here;
}

function nameOf(uri: string, local: string): string {
  const prefix = PREFIX_OF[uri];
  return prefix === undefined ? `{${uri}}${local}` : `${prefix}${local}`;
}
