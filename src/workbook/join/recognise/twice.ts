import { headed } from "../../../functions/log-columns";
import { Problem } from "../../../science/problem";
import { join as words } from "../../../words/join";
import type { ColumnProposal } from "./proposal";

/** Where two columns would state one thing, the later one becomes a question: the strict reader refuses a log that counts something twice. */
export function withoutTwice(proposals: readonly ColumnProposal[]): ColumnProposal[] {
  const accepted: ColumnProposal[] = [];
  return proposals.map((one) => {
    if (one.meaning === null) return one;
    const clash = accepted.find((other) => !stand(other, one));
    if (!clash) {
      accepted.push(one);
      return one;
    }
    return { ...one, meaning: null, sureness: "ask", why: words.why.same(clash.heading), choices: [one.meaning] };
  });
}

function stand(first: ColumnProposal, second: ColumnProposal): boolean {
  try {
    headed([[first.meaning, second.meaning], []]);
    return true;
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}
