/** Words of the add-in's manifest and of the check that holds it against Excel's rules. Scripts that run before the packages are
 * installed have theirs in scripts/setup-words.mjs. */
const list = (names: readonly string[]): string => (names.length > 0 ? names.join(", ") : "nothing");

export const setup = {
  /** What Excel shows of the add-in; the manifest repeats these, and a test holds the two together. */
  addIn: {
    name: "Algal Ledger",
    description:
      "Nitrogen and phosphorus accounts for aquaria and ponds that are cleaned by attached algae: worksheet functions under ALGAL and a task pane.",
    namespace: "ALGAL",
    group: "Algal Ledger",
    button: "Algal Ledger",
    buttonHelp: "Open the Algal Ledger pane: function help, and the list of cells whose formula has a problem.",
    readyTitle: "Algal Ledger is ready",
    ready: "Type =ALGAL. in a cell to see the functions, or open the pane with the Algal Ledger button on the Home tab.",
  },

  manifest: {
    placed: (folder: string, base: string) => `${folder} is ready to stand at ${base}, with its manifest.xml in it.`,
    inOrder: (checks: number) => `manifest is in order: ${checks} checks`,
    at: (file: string, line: number, sentence: string) => `${file} line ${line}: ${sentence}`,
    noFile: (file: string) => `There is no file ${file}.`,
    unknownOption: (option: string) => `${option} is not understood. Use: npm run check:manifest -- [manifest file] [--site built folder]`,

    notWellFormed: (message: string) => `This is not well-formed XML: ${message}.`,
    wrongRoot: (name: string) => `The outermost element should be OfficeApp in the namespace of version 1.1, and is ${name}.`,
    unknownElement: (parent: string, name: string, known: readonly string[]) => `${parent} cannot hold ${name}; it can hold ${list(known)}.`,
    outOfOrder: (parent: string, name: string, after: string) => `In ${parent}, ${name} should stand before ${after}.`,
    tooMany: (parent: string, name: string) => `${parent} should hold only one ${name}.`,
    missingElement: (parent: string, name: string) => `${parent} should hold ${name}, and does not.`,
    missingAttribute: (element: string, name: string) => `${element} should have the attribute ${name}.`,
    unknownAttribute: (element: string, name: string) => `${element} has no attribute ${name} in the schema.`,
    attributeOf: (element: string, name: string) => `${name} of ${element}`,
    strayText: (element: string) => `${element} should hold no text of its own.`,
    empty: (where: string) => `${where} is empty.`,
    tooLong: (where: string, most: number, length: number) => `${where} should have at most ${most} characters, and has ${length}.`,
    notOneOf: (where: string, known: readonly string[], given: string) => `${where} should be ${known.join(" or ")}, and is "${given}".`,
    wrongForm: (where: string, wanted: string, given: string) => `${where} should be ${wanted}, and is "${given}".`,

    noSuchResource: (element: string, id: string) => `${element} refers to "${id}", and Resources has no such id.`,
    wrongList: (element: string, id: string, wanted: string, found: string) =>
      `${element} refers to "${id}", which should stand in ${wanted} and stands in ${found}.`,
    unusedResource: (id: string) => `The resource "${id}" is not used by any element.`,
    resourceTwice: (id: string) => `The resource id "${id}" stands twice.`,
    commandTwice: (id: string) => `The id "${id}" stands on two groups or controls.`,

    notAnAddress: (value: string) => `"${value}" is not a web address.`,
    notHttps: (value: string) => `"${value}" should begin with https://.`,
    placeholder: (value: string) => `"${value}" is a placeholder, not an address of this add-in.`,
    elsewhere: (value: string, base: string) => `"${value}" should lie under ${base}, where the add-in's page is.`,
    notBuilt: (value: string, file: string) => `"${value}" is named, and the built folder has no ${file}.`,
    notShared: (id: string) => `The shared runtime needs the resource "${id}" here too: the runtime, the functions' page and the pane are one page.`,
    setMissing: (name: string, version: string) => `Requirements should ask for the set ${name} ${version} or newer.`,
    namespaceForm: (value: string) => `The functions' namespace should be 2 to 32 capital letters, and is "${value}".`,
    versionDiffers: (manifest: string, wanted: string) => `Version is ${manifest}, and package.json says ${wanted}.`,

    noIcon: (name: string) => `The icon ${name} is not in the manifest folder. Run node scripts/ts.cjs scripts/make-icons.ts to draw it.`,
    notPng: (name: string) => `The icon ${name} is not a PNG picture.`,
    iconSize: (name: string, size: number, width: number, height: number) =>
      `The icon ${name} should be ${size} by ${size} pixels, and is ${width} by ${height}.`,
    iconSizeMissing: (size: string) => `An icon on the ribbon needs a picture of size ${size}.`,
    iconSizeTwice: (size: string) => `This icon has two pictures of size ${size}.`,

    noMetadata: (file: string) => `The functions' metadata ${file} is neither built nor generated.`,
    functionsNotRead: "The functions' metadata is not JSON with a list of functions.",
    noFunctions: "The functions' metadata has no function.",
    functionId: "A function's id",
    functionName: "A function's name",
    functionHelp: (id: string) => `The description of ${id}`,
    parameterHelp: (id: string, name: string) => `The description of ${name} in ${id}`,
    functionNameLength: (what: string, name: string) => `${what} should have 3 to 64 characters: "${name}" has ${name.length}.`,
    functionNameForm: (what: string, name: string) => `${what} should be capital words joined by underscores, such as NET_VOLUME, and is "${name}".`,
    functionTwice: (id: string) => `The function ${id} stands twice (capitals make no difference).`,
    descriptionLength: (what: string, most: number, length: number) => `${what} should have 1 to ${most} characters, and has ${length}.`,
    helpLink: (id: string, link: string) => `The help link of ${id} should be an https address, and is "${link}".`,
    noParameters: (id: string) => `${id} has no list of parameters.`,
    parameterName: (id: string, name: string) => `Each parameter of ${id} needs a name of its own, and "${name}" is not one.`,

    baseNotUnderstood: (base: string) => `"${base}" is not a base address. Write an https address such as https://host/path/ without ? and #.`,
    rebaseFailed: (base: string, first: string) => `The manifest for ${base} is not in order: ${first}`,
  },
} as const;
