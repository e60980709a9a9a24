/** What a file may hold that the grid cannot show. */
export type UnshownKind =
  | "chartSheet" | "comment" | "conditionalFormat" | "control" | "externalLink" | "filter" | "group" | "headerFooter" | "hyperlink" | "macro" | "name" | "object" | "otherChart" | "picture" | "pivotTable" | "protection" | "query" | "richText" | "shape" | "slicer" | "sparkline" | "validation" | "whatIf";

/** Counts what cannot be shown, kind by kind. */
export class Unshown {
  private readonly counts = new Map<UnshownKind, number>();

  count(kind: UnshownKind, number = 1): void {
    if (number > 0) this.counts.set(kind, (this.counts.get(kind) ?? 0) + number);
  }

  list(): [kind: UnshownKind, count: number][] {
    return [...this.counts];
  }
}
