import { ADD_IN_LINK, ADD_IN_PARTS } from "../add-in-reference";
import { customFunctionsIn } from "../formula-text";
import { addLink, addPart } from "../part-links";
import { readRelationships } from "../relationships";
import type { MergeContext } from "./merge-context";

/** Lets the file offer the add-in when its first formula of ours was put in. What it says of other add-ins stays, and then Excel offers those. */
export async function referToAddIn({ archive, before, now, parts }: MergeContext): Promise<void> {
  const uses = ({ sheets }: typeof now.book) => sheets.some(({ cells }) => [...cells.values()].some(({ formula }) => formula !== undefined && customFunctionsIn(formula).length > 0));
  if (!uses(now.book) || uses(before.book)) return;
  if ((await readRelationships(archive, "")).some(({ kind }) => kind === "webextensiontaskpanes") || ADD_IN_PARTS.some(({ part }) => parts.has(part))) return;
  for (const { part, type, xml } of ADD_IN_PARTS) await addPart(parts, part, xml, type);
  await addLink(parts, "", ADD_IN_LINK.type, ADD_IN_LINK.target);
}
