import type { Nutrient } from "../../science/nutrient-forms";
import { budgetView } from "../../words/budget-view";
import type { AccountView, PeriodView } from "./account";
import { dayText, daysText } from "./day-text";

const words = budgetView.period;

/** What can be chosen: the latest that is complete, the whole log, or the period that ends on a day ("to 46100"). */
export type Choice = "latest" | "whole" | `to ${number}`;

export interface ChosenPeriod {
  readonly from: number;
  readonly to: number;
  readonly nutrients: Readonly<Record<Nutrient, PeriodView | null>>;
  /** The sentence of BUDGET_BOTH. */
  readonly believed: string;
}

/** The options of the chooser, the latest first. */
export function choices(view: AccountView): { readonly value: Choice; readonly label: string }[] {
  const latest = latestComplete(view);
  const running = runningEnd(view);
  const dates = ({ from, to }: { readonly from: number; readonly to: number }): string => days(view, from, to);
  const picks = [...view.believed].reverse().filter((one) => one !== latest);
  return [
    ...(latest ? [{ value: "latest" as const, label: words.option(dates(latest), isByHarvest(view) && latest.to !== running ? words.upToHarvest : words.latest) }] : []),
    { value: "whole", label: words.option(dates(view.whole.N), words.whole) },
    ...picks.map((one) => ({ value: `to ${one.to}` as const, label: one.to === running ? words.option(dates(one), words.running) : dates(one) })),
  ];
}

/** The periods behind a choice; one that is gone gives the latest. */
export function chosenPeriod(view: AccountView, choice: Choice): ChosenPeriod {
  const { N, P } = view.whole;
  const wholeLog = { from: Math.min(N.from, P.from), to: Math.max(N.to, P.to), nutrients: { N, P }, believed: view.believedWhole?.sentence ?? "" };
  if (choice === "whole") return wholeLog;
  const believed = view.believed.find(({ to }) => choice === `to ${to}`) ?? latestComplete(view);
  if (!believed) return wholeLog;
  // Counted by readings, N and P can have periods of their own: then the one that had closed by that day.
  const of = (nutrient: Nutrient): PeriodView | null => view.periods[nutrient].filter(({ to }) => to <= believed.to).at(-1) ?? null;
  return { from: believed.from, to: believed.to, nutrients: { N: of("N"), P: of("P") }, believed: believed.sentence };
}

/** The time since the last harvest says little yet: the period before it comes first. */
function latestComplete(view: AccountView): AccountView["believed"][number] | null {
  const { believed } = view;
  const last = believed.at(-1) ?? null;
  return last?.to === runningEnd(view) && believed.length > 1 ? (believed.at(-2) ?? last) : last;
}

const isByHarvest = ({ choice }: AccountView): boolean => choice === "harvest";

/** The log's last day, when periods end with harvests and it is none. */
function runningEnd(view: AccountView): number | null {
  const { log, setUp } = view.accounts.N;
  if (!isByHarvest(view) || log.harvests.some(({ day: harvestDay, unit }) => unit === setUp.periodUnit && harvestDay === log.lastDay)) return null;
  return log.lastDay;
}

/** Days of a workbook of the 1904 date system are counted from another day. */
const offset = ({ accounts }: AccountView): number => accounts.N.log.calendarOffset;

export const day = (view: AccountView, serial: number): string => dayText(serial + offset(view));

export const days = (view: AccountView, from: number, to: number): string => daysText(from + offset(view), to + offset(view));
