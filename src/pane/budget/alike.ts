import { budgetView } from "../../words/budget-view";
import type { WarningView } from "./account";

/** Warnings that say the same of several rows, as one. */
export interface AlikeWarnings {
  /** The first of them, to which a button goes. */
  readonly warning: WarningView;
  readonly sentence: string;
  readonly alike: readonly WarningView[];
}

const AT_LEAST = 3;
const ROW = /^Row \d+, */;

/** In the order of the first of each; fewer than three alike stay as they are. */
export function alikeTogether(warnings: readonly WarningView[]): AlikeWarnings[] {
  const keyOf = ({ severity, sentence, check, row }: WarningView, place: number): string => (row !== null && ROW.test(sentence) ? JSON.stringify([severity, check, sentence.replace(ROW, "")]) : String(place));
  const groups = new Map<string, WarningView[]>();
  warnings.forEach((warning, place) => {
    const key = keyOf(warning, place);
    groups.set(key, [...(groups.get(key) ?? []), warning]);
  });
  return [...groups.values()].flatMap((alike): AlikeWarnings[] => {
    const [first] = alike;
    if (!first) return [];
    if (alike.length < AT_LEAST) return alike.map((warning) => ({ warning, sentence: warning.sentence, alike: [warning] }));
    const rows = alike.flatMap(({ row }) => row ?? []);
    return [{ warning: first, sentence: budgetView.warnings.rows(alike.length, Math.min(...rows), Math.max(...rows), first.sentence.replace(ROW, "")), alike }];
  });
}
