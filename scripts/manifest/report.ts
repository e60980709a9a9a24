/** What a check found: one sentence, and where. */
export interface Finding {
  readonly file: string;
  readonly line: number;
  readonly sentence: string;
}

export interface Report {
  /** How many things were looked at, kept and broken. */
  readonly checks: number;
  readonly findings: readonly Finding[];
}

/** Counts one check, notes the sentence if it does not hold, and says whether it holds. */
export type Check = (holds: boolean, line: number, sentence: string) => boolean;

/** A report to write into; `checkIn` gives the check for one file of it. */
export function openReport(): { report: () => Report; checkIn: (file: string) => Check } {
  const findings: Finding[] = [];
  let checks = 0;
  return {
    report: () => ({ checks, findings: [...findings].sort((a, b) => a.file.localeCompare(b.file) || a.line - b.line) }),
    checkIn: (file) => (holds, line, sentence) => {
      checks += 1;
      if (!holds) findings.push({ file, line, sentence });
      return holds;
    },
  };
}
