import { walkXml } from "../../files/xml";
import type { XmlPartState } from "./book-state";
import { ClientCollection } from "./client-collection";
import { ClientObject, type LoadOption } from "./client-object";
import { clientResult } from "./client-result";
import { invalidArgument, itemNotFound } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";

type PartMembers = "context" | "delete" | "getXml" | "id" | "isNullObject" | "load" | "namespaceUri" | "setXml";

/** An XML part of the workbook. The target is its id. */
class LocalXmlPart extends ClientObject<string> implements Pick<Excel.CustomXmlPart, PartMembers> {
  protected override readonly readers = { id: (id: string) => id, namespaceUri: (id: string) => this.state(id).namespaceUri };

  get id(): string {
    return this.loadedCopy("id") as string;
  }

  get namespaceUri(): string {
    return this.loadedCopy("namespaceUri") as string;
  }

  getXml(): OfficeExtension.ClientResult<string> {
    const { result, settle } = clientResult<string>();
    this.queueWith((id) => settle(this.state(id).xml));
    return result;
  }

  setXml(xml: string): void {
    this.queueWith((id) => {
      this.state(id);
      const namespaceUri = rootNamespace(xml, "CustomXmlPart.setXml");
      this.local.changeState({ xmlParts: this.local.state().xmlParts.map((part) => (part.id === id ? { id, namespaceUri, xml } : part)) });
    });
  }

  delete(): void {
    this.queueWith((id) => this.local.changeState({ xmlParts: this.local.state().xmlParts.filter((part) => part.id !== id) }));
  }

  load(option?: LoadOption): Excel.CustomXmlPart {
    this.queueLoad(option);
    return this as Partial<Excel.CustomXmlPart> as Excel.CustomXmlPart;
  }

  private state(id: string): XmlPartState {
    const state = this.local.state().xmlParts.find((part) => part.id === id);
    if (!state) throw itemNotFound("CustomXmlPart");
    return state;
  }
}

type Members = "add" | "context" | "getByNamespace" | "getCount" | "getItem" | "getItemOrNullObject" | "items" | "load";
type ScopedMembers = "getCount" | "getItem" | "getItemOrNullObject" | "getOnlyItem" | "getOnlyItemOrNullObject" | "items";

/** All parts, or those whose root element is of one namespace. The target is the namespace, undefined for all. */
class LocalXmlParts extends ClientCollection<{ readonly namespaceUri?: string }, Excel.CustomXmlPart> implements Pick<Excel.CustomXmlPartCollection, Members>, Pick<Excel.CustomXmlPartScopedCollection, ScopedMembers> {
  add(xml: string): Excel.CustomXmlPart {
    return this.item(() => {
      const namespaceUri = rootNamespace(xml, "CustomXmlPartCollection.add");
      const { xmlParts } = this.local.state();
      const id = freeGuid(xmlParts);
      this.local.changeState({ xmlParts: [...xmlParts, { id, namespaceUri, xml }] });
      return id;
    });
  }

  getByNamespace(namespaceUri: string): Excel.CustomXmlPartScopedCollection {
    const parts: Partial<Excel.CustomXmlPartScopedCollection> = onlyWhatStands(new LocalXmlParts(this.local, "CustomXmlPartScopedCollection", () => ({ namespaceUri })), "CustomXmlPartScopedCollection");
    return parts as Excel.CustomXmlPartScopedCollection;
  }

  getOnlyItem(): Excel.CustomXmlPart {
    return this.itemWhere((keys) => (keys.length === 1 ? keys[0] : undefined), "getOnlyItem");
  }

  getOnlyItemOrNullObject(): Excel.CustomXmlPart {
    return this.item(
      this.below((scope) => {
        const [only, ...others] = this.keys(scope);
        return others.length === 0 ? (only ?? null) : null;
      }),
    );
  }

  load(option?: LoadOption): Excel.CustomXmlPartCollection & Excel.CustomXmlPartScopedCollection {
    this.queueLoadItems(option);
    return this as unknown as Excel.CustomXmlPartCollection & Excel.CustomXmlPartScopedCollection;
  }

  protected override keys({ namespaceUri }: { readonly namespaceUri?: string }): string[] {
    return this.local.state().xmlParts.filter((part) => namespaceUri === undefined || part.namespaceUri === namespaceUri).map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return id;
  }

  protected override item(find: () => string | null): Excel.CustomXmlPart {
    const part: Partial<Excel.CustomXmlPart> = onlyWhatStands(new LocalXmlPart(this.local, "CustomXmlPart", find), "CustomXmlPart");
    return part as Excel.CustomXmlPart;
  }
}

export function customXmlPartsOf(local: LocalContext): Excel.CustomXmlPartCollection {
  const parts: Partial<Excel.CustomXmlPartCollection> = onlyWhatStands(new LocalXmlParts(local, "CustomXmlPartCollection", () => ({})), "CustomXmlPartCollection");
  return parts as Excel.CustomXmlPartCollection;
}

/** Excel refuses a text that is no well-formed XML, and so does this. */
function rootNamespace(xml: string, location: string): string {
  let root: string | undefined;
  try {
    walkXml(xml, location, { open: (tag) => (root ??= tag.uri) });
  } catch {
    throw invalidArgument(location, "the text is not well-formed XML.");
  }
  if (root === undefined) throw invalidArgument(location, "the XML has no root element.");
  return root;
}

/** Ids have the form that Excel gives them; that they differ within the workbook is enough. */
function freeGuid(parts: readonly XmlPartState[]): string {
  const taken = new Set(parts.map(({ id }) => id));
  for (let number = 1; ; number += 1) {
    const id = `{00000000-0000-4000-8000-${number.toString(16).toUpperCase().padStart(12, "0")}}`;
    if (!taken.has(id)) return id;
  }
}
