import examples from "../../src/functions/generated/examples.json";
import metadata from "../../src/functions/generated/functions.json";
import { byTopic, reference, search } from "../../src/pane/functions/reference";

const names = (topics = reference): string[] => topics.flatMap(({ functions }) => functions.map(({ name }) => name));

it("has every function of the metadata once, each under a topic of its own", () => {
  expect(names().sort()).toEqual(metadata.functions.map(({ id }) => `ALGAL.${id}`).sort());
  expect(reference.map(({ topic }) => topic)).not.toContain("other");
});

it("puts the topics in the order of the work, and the functions of a topic by name", () => {
  expect(reference.map(({ title }) => title)).toEqual(["Feed", "Readings", "Water", "Water change", "Harvest", "Light", "Sizing a screen", "Budget", "Trend and forecast"]);
  expect(names(reference.filter(({ topic }) => topic === "feed"))).toEqual(["ALGAL.FEEDLOAD_N", "ALGAL.FEEDLOAD_P", "ALGAL.FOOD_N_CONTENT", "ALGAL.FOOD_P_CONTENT"]);
});

it("tells which arguments may be left out, gives the example, and links to the help page beside the pane", () => {
  const volume = reference.flatMap(({ functions }) => functions).find(({ name }) => name === "ALGAL.NET_VOLUME");
  expect(volume?.arguments.map(({ name, optional }) => [name, optional])).toEqual([["gross_l", false], ["rock_kg", true], ["sand_kg", true], ["other_l", true]]);
  expect(volume?.example).toBe(examples.NET_VOLUME);
  expect(volume?.helpPage).toBe("help.html#NET_VOLUME");
});

it("lists a function of a newer version, whose topic it does not know, under Other", () => {
  const topics = byTopic([{ id: "NEWTOPIC_THING", parameters: [] }], {});
  expect(topics).toEqual([{ topic: "other", title: "Other", functions: [{ name: "ALGAL.NEWTOPIC_THING", description: "", arguments: [], example: undefined, helpPage: undefined }] }]);
});

describe("search", () => {
  it("gives all functions for nothing and for blanks", () => {
    expect(names(search(reference, "  "))).toEqual(names());
  });

  it("looks in names, topics, descriptions and arguments, without regard to case", () => {
    expect(names(search(reference, "net_VOLUME"))).toEqual(["ALGAL.NET_VOLUME"]);
    expect(names(search(reference, "sizing habit"))).toEqual(["ALGAL.SCRUBAREA_HABIT"]);
    expect(names(search(reference, "displace"))).toEqual(["ALGAL.NET_VOLUME"]);
    expect(names(search(reference, "rock_kg"))).toEqual(["ALGAL.NET_VOLUME"]);
  });

  it("wants every word, and leaves out topics without a find", () => {
    expect(names(search(reference, "harvest p_export left"))).toEqual(["ALGAL.HARVEST_P_EXPORT"]);
    expect(search(reference, "harvest phosphorus zebra")).toEqual([]);
  });
});
