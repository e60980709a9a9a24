import { changed, lineOf, manifest, report, sentences } from "./real";

describe("the manifest of this project", () => {
  it("is in order", () => {
    const { checks, findings } = report(manifest);
    expect(findings).toEqual([]);
    expect(checks).toBeGreaterThan(500);
  });
});

describe("the check of a manifest's structure", () => {
  const broken: [string, string, string, string[]][] = [
    ["XML that is not well-formed", "</Permissions>", "</Permission>", [`${lineOf("</Permissions>")}: This is not well-formed XML: unexpected close tag.`]],
    [
      "an element that the schema does not know",
      "<Permissions>",
      "<Colour>green</Colour><Permissions>",
      ["OfficeApp cannot hold Colour; it can hold Id, Version, ProviderName"],
    ],
    [
      "an element of another namespace",
      '<Host Name="Workbook"/>',
      '<Host Name="Workbook"/><x:Host xmlns:x="https://elsewhere/"/>',
      ["Hosts cannot hold {https://elsewhere/}Host; it can hold Host."],
    ],
    [
      "elements in the wrong order",
      '<Version>0.1.0.0</Version>\n  <ProviderName>The Algal Ledger authors</ProviderName>',
      '<ProviderName>The Algal Ledger authors</ProviderName>\n  <Version>0.1.0.0</Version>',
      [`${lineOf("<ProviderName>")}: In OfficeApp, Version should stand before ProviderName.`],
    ],
    [
      "elements of the overrides in the wrong order",
      '<Label resid="Group.Label"/>',
      '<Icon><bt:Image size="16" resid="Icon.16"/><bt:Image size="32" resid="Icon.32"/><bt:Image size="80" resid="Icon.80"/></Icon><Label resid="Group.Label"/>',
      ["In ov:Group, ov:Label should stand before ov:Icon.", "ov:Group should hold only one ov:Icon."],
    ],
    ["a required element that is missing", "<DefaultLocale>en-US</DefaultLocale>", "", ["OfficeApp should hold DefaultLocale, and does not."]],
    ["a second element where one may stand", '<Host Name="Workbook"/>', '<Host Name="Workbook"/><Host Name="Workbook"/>', ["Hosts should hold only one Host."]],
    ["an attribute that is missing", ' lifetime="long"', "", ["ov:Runtime should have the attribute lifetime."]],
    ["an attribute that the schema does not know", ' lifetime="long"', ' lifetime="long" colour="green"', ["ov:Runtime has no attribute colour in the schema."]],
    ["text where none belongs", "<Hosts>\n    <Host Name", "<Hosts>stray\n    <Host Name", ["Hosts should hold no text of its own."]],
    ["an element without its text", ">The Algal Ledger authors<", "> <", ["ProviderName is empty."]],
    ["an Id that is no random GUID", /<Id>.*<\/Id>/.exec(manifest)?.[0] ?? "", "<Id>12345678-1234-1234-1234-123456789012</Id>", [
      `${lineOf("<Id>")}: Id should be a random GUID (version 4), and is "12345678-1234-1234-1234-123456789012".`,
    ]],
    ["a version of three numbers", "<Version>0.1.0.0<", "<Version>0.1.0<", ['Version should be four numbers such as 0.1.0.0, and is "0.1.0".', "Version is 0.1.0, and package.json says 0.1.0."]],
    ["a version that is not the package's", "<Version>0.1.0.0<", "<Version>0.2.0.0<", ["Version is 0.2.0.0, and package.json says 0.1.0."]],
    ["a provider's name that is too long", ">The Algal Ledger authors<", `>${"a".repeat(126)}<`, ["ProviderName should have at most 125 characters, and has 126."]],
    ["a name that is too long", 'DisplayName DefaultValue="Algal Ledger"', `DisplayName DefaultValue="${"a".repeat(126)}"`, [
      "DefaultValue of DisplayName should have at most 125 characters, and has 126.",
    ]],
    ["a description that is too long", "Nitrogen and phosphorus accounts for aquaria", `${"a".repeat(250)} aquaria`, ["DefaultValue of Description should have at most 250 characters, and has"]],
    ["a short string that is too long", '"Algal Ledger is ready"', `"${"a".repeat(126)}"`, ["DefaultValue of bt:String should have at most 125 characters, and has 126."]],
    ["a long string that is too long", "Type =ALGAL. in a cell", "a".repeat(251), ["DefaultValue of bt:String should have at most 250 characters, and has"]],
    ["a host that is not the workbook", '<Host Name="Workbook"/>', '<Host Name="Document"/>', ['Name of Host should be Workbook, and is "Document".']],
    ["a permission that is not the least one that works", ">ReadWriteDocument<", ">ReadDocument<", ['Permissions should be ReadWriteDocument, and is "ReadDocument".']],
    ["a language without a country", ">en-US<", ">english<", ['DefaultLocale should be a language and a country such as en-US, and is "english".']],
    ["a runtime that ends with its pane", 'lifetime="long"', 'lifetime="short"', ['lifetime of ov:Runtime should be long, and is "short".']],
    ["a requirement without its version", 'Name="SharedRuntime" MinVersion="1.1"', 'Name="SharedRuntime" MinVersion="one"', [
      "Requirements should ask for the set SharedRuntime 1.1 or newer.",
      'MinVersion of Set should be two numbers such as 1.1, and is "one".',
    ]],
    ["a requirement set that is missing", '<Set Name="CustomFunctionsRuntime" MinVersion="1.3"/>', "", [
      "Requirements should ask for the set CustomFunctionsRuntime 1.1 or newer.",
    ]],
    ["other hosts that the pane may go to", "<Hosts>\n    <Host Name", "<AppDomains><AppDomain>https://elsewhere.org</AppDomain></AppDomains><Hosts>\n    <Host Name", [
      "OfficeApp cannot hold AppDomains;",
    ]],
  ];

  it.each(broken)("reports %s", (_rule, from, to, expected) => {
    const found = sentences(changed(from, to));
    expect(found).toHaveLength(expected.length);
    expected.forEach((sentence, at) => expect(found[at]).toContain(sentence));
  });

  it("refuses a document that is no manifest", () => {
    expect(sentences("<OfficeApp/>")).toEqual([
      "1: The outermost element should be OfficeApp in the namespace of version 1.1, and is {}OfficeApp.",
    ]);
  });
});
