import fs from "node:fs";
import path from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";

/** Reads the JSDoc of src/functions and writes the metadata that Excel, the local host, the help page and the word list share. */
const root = path.join(__dirname, "..");
const folder = path.join(root, "src/functions");
export const HELP_BASE = "https://localhost:3000/help.html";

interface Metadata {
  functions: {
    id: string;
    name: string;
    helpUrl?: string;
    options?: Record<string, unknown>;
    parameters: { name: string; description: string; type: string; dimensionality?: string; optional?: boolean }[];
  }[];
  allowErrorForDataTypeAny?: boolean;
}

export async function buildMetadata(): Promise<Metadata> {
  const topics = fs.readdirSync(folder).filter((name) => name.endsWith(".ts")).map((name) => path.join(folder, name));
  const marked = topics.filter((file) => fs.readFileSync(file, "utf8").includes("@customfunction"));
  const parsed = await generateCustomFunctionsMetadata(marked, false);
  if (parsed.errors?.length) throw new Error(parsed.errors.join("\n"));
  const metadata = JSON.parse(parsed.metadataJson) as Metadata;
  metadata.allowErrorForDataTypeAny = true;
  metadata.functions.sort((a, b) => a.id.localeCompare(b.id));
  for (const entry of metadata.functions) {
    entry.helpUrl = `${HELP_BASE}#${entry.id}`;
    // The address lets the pane list a problem with its cell; Excel passes it in the last argument.
    entry.options = { ...entry.options, requiresAddress: true };
  }
  return metadata;
}

if (require.main === module || process.argv[1]?.endsWith("build-metadata.ts")) {
  buildMetadata().then(
    (metadata) => {
      const target = path.join(folder, "generated", "functions.json");
      fs.mkdirSync(path.dirname(target), { recursive: true });
      fs.writeFileSync(target, `${JSON.stringify(metadata, null, 2)}\n`);
      console.log(`${metadata.functions.length} functions described in ${path.relative(root, target)}`);
    },
    (error: Error) => {
      console.error(error.message);
      process.exit(1);
    },
  );
}
