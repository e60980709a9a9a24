import fs from "node:fs";
import path from "node:path";
import { generateCustomFunctionsMetadata } from "custom-functions-metadata";
import ts from "typescript";

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

/** The example formula of each function: the @example of its JSDoc, which Excel's own metadata has no place for. */
export function readExamples(): Record<string, string> {
  const examples: [string, string][] = fs
    .readdirSync(folder)
    .filter((name) => name.endsWith("-functions.ts"))
    .flatMap((name) => {
      const source = ts.createSourceFile(name, fs.readFileSync(path.join(folder, name), "utf8"), ts.ScriptTarget.ES2022, true);
      return source.statements.filter(ts.isFunctionDeclaration).flatMap((statement): [string, string][] => {
        const tag = ts.getJSDocTags(statement).find((one) => one.tagName.text === "example");
        const text = ts.getTextOfJSDocComment(tag?.comment)?.trim();
        return statement.name && text ? [[statement.name.text, text]] : [];
      });
    });
  return Object.fromEntries(examples.sort(([a], [b]) => a.localeCompare(b)));
}

function write(name: string, content: unknown): string {
  const target = path.join(folder, "generated", name);
  fs.mkdirSync(path.dirname(target), { recursive: true });
  fs.writeFileSync(target, `${JSON.stringify(content, null, 2)}\n`);
  return path.relative(root, target);
}

if (process.argv[1]?.endsWith("build-metadata.ts")) {
  buildMetadata().then(
    (metadata) => {
      console.log(`${metadata.functions.length} functions described in ${write("functions.json", metadata)}`);
      console.log(`their examples in ${write("examples.json", readExamples())}`);
    },
    (error: Error) => {
      console.error(error.message);
      process.exit(1);
    },
  );
}
