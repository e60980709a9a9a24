import { SOURCES, type SourceKey } from "./sources";

/** What may be shown as a source: a value from memory names none. */
export function whence(source: SourceKey, marks: readonly string[]): string {
  const from = source === "judgement" || source === "memory" ? "" : SOURCES[source].citation;
  const doubtful = [...new Set(marks.filter((mark) => mark === "from memory" || mark === "judgement"))];
  return [marks.every((mark) => mark === "from memory") ? "" : from, doubtful.length > 0 ? `(${doubtful.join(", ")})` : ""].filter(Boolean).join(" ");
}
