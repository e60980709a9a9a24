import { readWorkbook } from "../../files/read-workbook";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";
import type { OpenedFile } from "./open-file";

export type Sample = (typeof host.samples)[number];

/** Fetches a sample workbook from the page's own server and reads it; throws a Problem that says why it cannot. */
export async function fetchSample({ file }: Sample): Promise<OpenedFile> {
  const answer = await fetch(`samples/${file}`).catch(() => null);
  if (!answer?.ok) throw new Problem("missing", host.fileMissing);
  const bytes = new Uint8Array(await answer.arrayBuffer());
  return { ...(await readWorkbook(bytes)), bytes };
}
