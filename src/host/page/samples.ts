import { readBook } from "../../files/read-book";
import type { Book } from "../../files/book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";

const FOLDER = "samples/";
/** The build writes the names of the sample workbooks here, in the order of the picker. */
const LIST = `${FOLDER}samples.json`;

export interface Sample {
  file: string;
  title: string;
}

export async function listSamples(): Promise<Sample[]> {
  const answer = await fetch(LIST);
  if (!answer.ok) return [];
  const files = (await answer.json()) as string[];
  return files.map((file) => ({ file, title: host.sampleTitle(file) }));
}

export async function fetchSample({ file, title }: Sample): Promise<Book> {
  const answer = await fetch(FOLDER + encodeURIComponent(file));
  if (!answer.ok) throw new Problem("missing", host.notOpened(title, host.fileMissing));
  return readBook(new Uint8Array(await answer.arrayBuffer()));
}
