import type { Book } from "../../files/book";
import { readBook } from "../../files/read-book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";

export type Sample = (typeof host.samples)[number];

/** Fetches a sample workbook from the page's own server and reads it; throws a Problem that says why it cannot. */
export async function fetchSample({ file }: Sample): Promise<Book> {
  const answer = await fetch(`samples/${file}`);
  if (!answer.ok) throw new Problem("missing", host.fileMissing);
  return readBook(new Uint8Array(await answer.arrayBuffer()));
}
