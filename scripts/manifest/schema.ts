/**
 * The part of Microsoft's manifest schema that this add-in uses, as data: which element holds which, in which order, how often, and
 * what its values look like. Source: the published schemas of MS-OWEMXML, sections 5.2 (appforoffice/1.1), 5.6 (officeappbasictypes)
 * and 5.7 (taskpaneappversionoverrides), read with the reference pages of the manifest for what came later (Runtimes).
 * What we do not use is left out, so that adding it is a decision: AppDomains, for one, would let the pane go to other hosts.
 */
export interface ElementRule {
  readonly name: string;
  /** Fewest and most in its parent; one of each unless said otherwise. */
  readonly min?: number;
  readonly max?: number;
  readonly attributes?: Readonly<Record<string, ValueRule>>;
  readonly optional?: Readonly<Record<string, ValueRule>>;
  readonly text?: ValueRule;
  /** In the order in which they have to stand. */
  readonly children?: readonly ElementRule[];
  /** The list of resources in which its resid has to stand. */
  readonly refersTo?: ResourceList;
}

export type ResourceList = "bt:Images" | "bt:Urls" | "bt:ShortStrings" | "bt:LongStrings";

export interface ValueRule {
  /** Most characters. */
  readonly most?: number;
  readonly form?: RegExp;
  readonly oneOf?: readonly string[];
  /** The wanted form in words, for the sentence. */
  readonly wanted?: string;
  readonly isAddress?: true;
}

const shortText: ValueRule = { most: 125 };
const longText: ValueRule = { most: 250 };
const address: ValueRule = { most: 2048, isAddress: true };
const resourceId: ValueRule = { most: 32 };
const one = (...oneOf: string[]): ValueRule => ({ oneOf });
const shortVersion: ValueRule = { form: /^\d{1,5}\.\d{1,5}$/, wanted: "two numbers such as 1.1" };
const locale: ValueRule = { form: /^[a-z]{2,3}-[A-Z]{2}$/, wanted: "a language and a country such as en-US" };
const MANY = Number.POSITIVE_INFINITY;

const setting = (name: string, value: ValueRule): ElementRule => ({
  name,
  attributes: { DefaultValue: value },
  children: [{ name: "Override", min: 0, max: MANY, attributes: { Locale: locale, Value: value } }],
});
const reference = (name: string, refersTo: ResourceList): ElementRule => ({ name, attributes: { resid: resourceId }, refersTo });
const location = (name: string): ElementRule => ({ name, children: [reference("ov:SourceLocation", "bt:Urls")] });
const icon: ElementRule = {
  name: "ov:Icon",
  children: [
    {
      name: "bt:Image",
      max: MANY,
      attributes: { size: one("16", "20", "24", "32", "40", "48", "64", "80"), resid: resourceId },
      refersTo: "bt:Images",
    },
  ],
};
const resources = (list: ResourceList, item: string, value: ValueRule): ElementRule => ({
  name: list,
  children: [
    {
      name: item,
      max: MANY,
      attributes: { id: resourceId, DefaultValue: value },
      children: [{ name: "bt:Override", min: 0, max: MANY, attributes: { Locale: locale, Value: value } }],
    },
  ],
});

const customFunctions: ElementRule = {
  name: "ov:ExtensionPoint",
  attributes: { "xsi:type": one("CustomFunctions") },
  children: [location("ov:Script"), location("ov:Page"), location("ov:Metadata"), reference("ov:Namespace", "bt:ShortStrings")],
};
const button: ElementRule = {
  name: "ov:Control",
  max: MANY,
  attributes: { "xsi:type": one("Button"), id: shortText },
  children: [
    reference("ov:Label", "bt:ShortStrings"),
    { name: "ov:Supertip", children: [reference("ov:Title", "bt:ShortStrings"), reference("ov:Description", "bt:LongStrings")] },
    icon,
    {
      name: "ov:Action",
      attributes: { "xsi:type": one("ShowTaskpane") },
      children: [{ name: "ov:TaskpaneId", text: shortText }, reference("ov:SourceLocation", "bt:Urls")],
    },
  ],
};
const ribbon: ElementRule = {
  name: "ov:ExtensionPoint",
  attributes: { "xsi:type": one("PrimaryCommandSurface") },
  children: [
    {
      name: "ov:OfficeTab",
      attributes: { id: shortText },
      children: [{ name: "ov:Group", attributes: { id: shortText }, children: [reference("ov:Label", "bt:ShortStrings"), icon, button] }],
    },
  ],
};

const versionOverrides: ElementRule = {
  name: "ov:VersionOverrides",
  attributes: { "xsi:type": one("VersionOverridesV1_0") },
  children: [
    {
      name: "ov:Hosts",
      children: [
        {
          name: "ov:Host",
          attributes: { "xsi:type": one("Workbook") },
          children: [
            {
              name: "ov:Runtimes",
              children: [{ name: "ov:Runtime", attributes: { resid: resourceId, lifetime: one("long") }, refersTo: "bt:Urls" }],
            },
            { name: "ov:AllFormFactors", children: [customFunctions] },
            {
              name: "ov:DesktopFormFactor",
              children: [
                {
                  name: "ov:GetStarted",
                  children: [
                    reference("ov:Title", "bt:ShortStrings"),
                    reference("ov:Description", "bt:LongStrings"),
                    reference("ov:LearnMoreUrl", "bt:Urls"),
                  ],
                },
                ribbon,
              ],
            },
          ],
        },
      ],
    },
    {
      name: "ov:Resources",
      children: [
        resources("bt:Images", "bt:Image", address),
        resources("bt:Urls", "bt:Url", address),
        resources("bt:ShortStrings", "bt:String", shortText),
        resources("bt:LongStrings", "bt:String", longText),
      ],
    },
  ],
};

export const manifestSchema: ElementRule = {
  name: "OfficeApp",
  attributes: { "xsi:type": one("TaskPaneApp") },
  children: [
    {
      name: "Id",
      text: { form: /^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/i, wanted: "a random GUID (version 4)" },
    },
    { name: "Version", text: { form: /^\d{1,5}(\.\d{1,5}){3}$/, wanted: "four numbers such as 0.1.0.0" } },
    { name: "ProviderName", text: shortText },
    { name: "DefaultLocale", text: locale },
    setting("DisplayName", shortText),
    setting("Description", longText),
    setting("IconUrl", address),
    setting("HighResolutionIconUrl", address),
    setting("SupportUrl", address),
    { name: "Hosts", children: [{ name: "Host", attributes: { Name: one("Workbook") } }] },
    {
      name: "Requirements",
      children: [
        {
          name: "Sets",
          optional: { DefaultMinVersion: shortVersion },
          children: [{ name: "Set", max: MANY, attributes: { Name: shortText, MinVersion: shortVersion } }],
        },
      ],
    },
    { name: "DefaultSettings", children: [setting("SourceLocation", address)] },
    { name: "Permissions", text: one("ReadWriteDocument") },
    versionOverrides,
  ],
};
