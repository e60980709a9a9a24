import { CannotMerge } from "./cannot-merge";

/** Which of a file's rules stand as they did, and what has to be written beside them. */
export interface KeptRules<Rule> {
  /** Numbers of the elements that go: all of their ranges, or some, have another rule now. */
  readonly gone: ReadonlySet<number>;
  /** The rules to write, in their order; those that are to come before what is kept stand first. */
  readonly first: readonly Rule[];
  readonly last: readonly Rule[];
}

/**
 * The grid holds a rule of a file for several ranges as one for each, in the file's order, so that each of its rules is known to
 * come from an element of the file.
 * @param elements the number of the element of each rule that was read, with its ranges separated by blanks
 */
export function keptRules<Rule>(elements: readonly { readonly element: number; readonly range: string }[], before: readonly Rule[], now: readonly Rule[]): KeptRules<Rule> {
  const from = elements.flatMap(({ element, range }) => range.split(" ").map(() => element));
  if (from.length !== before.length) throw new CannotMerge("The rules of the file are not told apart.");
  const text = (rule: Rule) => JSON.stringify(rule);
  const places = new Map<string, number[]>();
  now.forEach((rule, i) => places.set(text(rule), [...(places.get(text(rule)) ?? []), i]));
  // Each rule of before takes one of now that is the same.
  const stands = before.map((rule) => places.get(text(rule))?.shift());
  const gone = new Set(from.filter((_element, i) => stands[i] === undefined));
  const keptAt = () => new Set(from.flatMap((element, i) => (gone.has(element) ? [] : [stands[i] ?? -1])));
  // What was kept must follow in the order of the file; what does not is written again.
  let highest = -1;
  from.forEach((element, i) => {
    const at = stands[i] ?? -1;
    if (gone.has(element)) return;
    if (at < highest) gone.add(element);
    else highest = at;
  });
  const isNew = (kept: ReadonlySet<number>, i: number) => !kept.has(i);
  const lastNewBeforeKept = (kept: ReadonlySet<number>) => Math.max(-1, ...now.map((_rule, i) => i).filter((i) => isNew(kept, i) && [...kept].some((at) => at > i)));
  // One that stands before another that is written is written, too.
  const bound = lastNewBeforeKept(keptAt());
  from.forEach((element, i) => {
    if (!gone.has(element) && (stands[i] ?? -1) < bound) gone.add(element);
  });
  const kept = keptAt();
  const firstKept = Math.min(now.length, ...kept);
  const written = now.map((rule, i) => ({ rule, i })).filter(({ i }) => isNew(kept, i));
  return { gone, first: written.filter(({ i }) => i < firstKept && kept.size > 0).map(({ rule }) => rule), last: written.filter(({ i }) => i > firstKept || kept.size === 0).map(({ rule }) => rule) };
}
