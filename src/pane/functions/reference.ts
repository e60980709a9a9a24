import examples from "../../functions/generated/examples.json";
import metadata from "../../functions/generated/functions.json";
import { pane } from "../../words/pane";

export interface FunctionHelp {
  /** As it is written in a cell: "ALGAL.FEEDLOAD_N". */
  readonly name: string;
  readonly description: string;
  readonly arguments: readonly ArgumentHelp[];
  /** A formula that can be typed as it stands. */
  readonly example: string | undefined;
  /** Address of the help page relative to the pane's own page, so that it opens from the same place. */
  readonly helpPage: string | undefined;
}

export interface ArgumentHelp {
  readonly name: string;
  readonly description: string;
  readonly optional: boolean;
}

export interface TopicHelp {
  readonly topic: Topic;
  readonly title: string;
  readonly functions: readonly FunctionHelp[];
}

export type Topic = keyof typeof pane.functions.topics;

/** What is read of the metadata; a pane of another day's version meets members that come and go. */
interface MetadataEntry {
  id: string;
  description?: string;
  helpUrl?: string;
  parameters: { name: string; description?: string; optional?: boolean }[];
}

/** The first word of a function's name says its topic. */
const TOPIC_OF: Readonly<Record<string, Topic>> = {
  FEEDLOAD: "feed",
  FOOD: "feed",
  READING: "readings",
  ION: "readings",
  NP: "readings",
  WATER: "water",
  NET: "water",
  SEAWATER: "water",
  SALINITY: "water",
  AMMONIA: "water",
  OXYGEN: "water",
  ALKALINITY: "water",
  CHANGE: "change",
  HARVEST: "harvest",
  LIGHT: "light",
  SCRUBAREA: "sizing",
  SCRUB: "sizing",
  FLOW: "sizing",
  FLOAT: "sizing",
  BUDGET: "budget",
  LOG: "budget",
  TREND: "trend",
  STEADY: "trend",
  FORECAST: "trend",
  DAYS: "trend",
};

/** The worksheet functions by topic, in the order of the topics; each topic's functions by name. */
export const reference: readonly TopicHelp[] = byTopic(metadata.functions, examples);

/** @param formulas an example for each function's id, where there is one */
export function byTopic(entries: readonly MetadataEntry[], formulas: Readonly<Record<string, string>>): TopicHelp[] {
  const topics = Object.keys(pane.functions.topics) as Topic[];
  const sorted = [...entries].sort((a, b) => a.id.localeCompare(b.id, "en"));
  return topics
    .map((topic) => ({
      topic,
      title: pane.functions.topics[topic],
      functions: sorted.filter(({ id }) => topicOf(id) === topic).map((entry) => helpOf(entry, formulas[entry.id])),
    }))
    .filter(({ functions }) => functions.length > 0);
}

/** Every word of the search must stand somewhere in the name, the topic, the description or an argument. */
export function search(topics: readonly TopicHelp[], written: string): TopicHelp[] {
  const words = written.toLowerCase().split(/\s+/).filter(Boolean);
  if (words.length === 0) return [...topics];
  return topics
    .map((topic) => ({ ...topic, functions: topic.functions.filter((entry) => words.every((word) => textOf(topic, entry).includes(word))) }))
    .filter(({ functions }) => functions.length > 0);
}

function topicOf(id: string): Topic {
  return TOPIC_OF[id.split("_")[0] ?? ""] ?? "other";
}

function helpOf({ id, description = "", helpUrl, parameters }: MetadataEntry, example: string | undefined): FunctionHelp {
  return {
    name: `ALGAL.${id}`,
    description,
    arguments: parameters.map(({ name, description: text = "", optional = false }) => ({ name, description: text, optional })),
    example,
    helpPage: helpUrl === undefined ? undefined : pageOf(helpUrl),
  };
}

function pageOf(helpUrl: string): string {
  const { pathname, hash } = new URL(helpUrl);
  return `${pathname.slice(pathname.lastIndexOf("/") + 1)}${hash}`;
}

function textOf(topic: TopicHelp, { name, description, arguments: given }: FunctionHelp): string {
  return [topic.title, name, description, ...given.flatMap((argument) => [argument.name, argument.description])].join(" ").toLowerCase();
}
