import { useCallback, useEffect, useRef, useState } from "react";
import { joinPane as words } from "../../words/join-pane";
import { joinLog } from "../../workbook/join/join-log";
import { type Joined, type Look, lookAtSelection } from "../../workbook/join/look";
import { lookAgain, readAgain } from "../../workbook/join/read-again";
import { type JoinSheets, listJoins } from "../../workbook/join/take-back";
import { WorkbookProblem } from "../../workbook/workbook-problem";
import { answeredFoods, type Answers, firstAnswers, foodsToAsk, openQuestions, readSetUp, type SetUpField } from "./answers";

export interface KnownJoin {
  readonly joined: Joined;
  readonly sheets: JoinSheets;
}

export type JoinState =
  | { readonly kind: "looking" }
  | { readonly kind: "none"; readonly sentence: string }
  /** `again`: the number of a join that is to be read again, null for a log that is joined anew. */
  | { readonly kind: "found"; readonly look: Look; readonly answers: Answers; readonly again: number | null }
  | { readonly kind: "joined" }
  | { readonly kind: "done"; readonly sentence: string; readonly isJoined: boolean };

export interface JoinDesk {
  readonly state: JoinState;
  readonly joins: readonly KnownJoin[];
  readonly look: () => Promise<void>;
  readonly answerMeaning: (place: number, meaning: string | null | undefined) => void;
  readonly answerDateOrder: (order: Answers["dateOrder"]) => void;
  readonly answerSetUp: (field: SetUpField, text: string) => void;
  readonly answerFood: (name: string, food: string | null | undefined) => void;
  readonly add: (onNewSheet: boolean, signal: AbortSignal) => Promise<string>;
  readonly again: (id: number, signal?: AbortSignal) => Promise<string>;
  readonly removed: (sentence: string) => Promise<void>;
}

const meaningsOf = ({ meanings }: Answers): (string | null)[] => meanings.map((meaning) => meaning ?? null);

/** What the screen "Join your log" holds, from the look at the sheet to what was added. */
export function useJoin(): JoinDesk {
  const [state, setState] = useState<JoinState>({ kind: "looking" });
  const [joins, setJoins] = useState<readonly KnownJoin[]>([]);

  /** What was begun last: something slower that was begun before it says nothing any more. */
  const latest = useRef<object | null>(null);

  const list = useCallback(async (): Promise<readonly KnownJoin[]> => {
    const known = await listJoins();
    setJoins(known);
    return known;
  }, []);

  const begin = useCallback((): ((state: JoinState) => void) => {
    const mine = {};
    latest.current = mine;
    return (next) => {
      if (latest.current === mine) setState(next);
    };
  }, []);

  const look = useCallback(async (): Promise<void> => {
    const show = begin();
    setState({ kind: "looking" });
    try {
      const known = await list();
      const seen = await lookAtSelection();
      show(known.some((one) => isAt(one, seen)) ? { kind: "joined" } : { kind: "found", look: seen, answers: firstAnswers(seen, null), again: null });
    } catch (error) {
      show({ kind: "none", sentence: sentenceOf(error) });
    }
  }, [begin, list]);

  useEffect(() => void look(), [look]);

  const change = (next: (answers: Answers) => Answers): void => setState((before) => (before.kind === "found" ? { ...before, answers: next(before.answers) } : before));

  const finish = async (sentence: string, isJoined: boolean): Promise<string> => {
    const show = begin();
    await list().catch(() => []);
    show({ kind: "done", sentence, isJoined });
    return sentence;
  };

  const readOnce = async (id: number, answers: Answers, signal?: AbortSignal): Promise<string> => {
    const { rows, at } = await readAgain(id, { meanings: meaningsOf(answers), dateOrder: answers.dateOrder ?? null }, signal);
    return words.againDone(rows, at);
  };

  return {
    state,
    joins,
    look,
    answerMeaning: (place, meaning) => change((answers) => ({ ...answers, meanings: answers.meanings.map((one, at) => (at === place ? meaning : one)) })),
    answerDateOrder: (dateOrder) => change((answers) => ({ ...answers, dateOrder })),
    answerSetUp: (field, text) => change((answers) => ({ ...answers, setUp: { ...answers.setUp, [field]: text } })),
    answerFood: (name, food) =>
      change((answers) => {
        const others = Object.entries(answers.foods).filter(([other]) => other !== name);
        return { ...answers, foods: Object.fromEntries(food === undefined ? others : [...others, [name, food]]) };
      }),
    add: async (onNewSheet, signal) => {
      if (state.kind !== "found") throw new WorkbookProblem(words.changed);
      const { look: seen, answers, again } = state;
      if (again !== null) return finish(await readOnce(again, answers, signal), true);
      const { setUp, own } = answeredFoods(foodsToAsk(seen, answers).asked, answers);
      const { at, sheets } = await joinLog(seen, { meanings: meaningsOf(answers), dateOrder: answers.dateOrder ?? null, setUp: { ...readSetUp(answers).rows, ...setUp }, foods: own, onNewSheet }, signal);
      return finish(words.done(at, sheets), true);
    },
    again: async (id, signal) => {
      const second = await lookAgain(id);
      const answers = firstAnswers(second.look, second);
      if (openQuestions(answers) > 0) {
        setState({ kind: "found", look: second.look, answers, again: id });
        return words.againAsks;
      }
      const sentence = await readOnce(id, answers, signal);
      await list();
      return sentence;
    },
    removed: async (sentence) => void (await finish(sentence, false)),
  };
}

/** Whether a log is one that is joined already. */
function isAt({ joined: { log } }: KnownJoin, { sheet, found }: Look): boolean {
  return log !== null && log.sheet === sheet && log.area.left <= found.right && log.area.right >= found.left && log.area.top <= found.bottom && log.area.bottom >= found.firstDataRow;
}

function sentenceOf(error: unknown): string {
  if (error instanceof WorkbookProblem) return error.message;
  console.error(error);
  return words.lookRefused;
}
