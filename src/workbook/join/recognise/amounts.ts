import { join as words } from "../../../words/join";
import { headingFor, SORTS_OF, unitChoices, unlikelyIn } from "./choices";
import { asked, leftAlone, meant, type ColumnFacts, type ColumnProposal } from "./proposal";
import type { WrittenUnit } from "./units";
import { cellsSayUnit, foodWordIn } from "./values";
import { folded } from "./cells";
import { FED_EITHER } from "./vocabulary";

/** Everything that is no test: feed, harvests, water, lamps and what is measured beside. */
export function amountProposal(facts: ColumnFacts): ColumnProposal {
  const { heading, kind, said, values } = facts;
  if (kind === "ph") return inRange(facts, "pH", 4, 11);
  if (kind === "salinity") return salinity(facts);
  if (kind === "otherIn" || kind === "otherOut") return other(facts);
  const pieces = writtenUnits(facts);
  // Weak words such as "algae" are a harvest only where something was weighed.
  if (said.weak && !pieces.some(({ unit }) => unit.sort === "mass")) return leftAlone(heading, "likely", words.why.unknown);
  if (kind === "lightLevel" && /dimm/i.test(heading)) return asked(heading, kind, words.why.dimming, [headingFor(kind, "%")]);
  const name = nameFor(facts);
  if (kind === "feed" && FED_EITHER.test(folded(heading))) return asked(heading, kind, words.why.perhaps(words.kind.fedBack), [...unitChoices(kind, "", values.figures), ...unitChoices("fedBack", "", values.figures)]);
  if (kind === "feed" && name.isOpen) return asked(heading, kind, words.why.foodOrScreen(name.name), namedAndNot(facts, name.name, pieces));
  if (kind === "harvest" && said.dry) return asked(heading, kind, words.why.dryWeight, unitChoices(kind, name.name, values.figures));
  return withUnit(facts, name.name, pieces);
}

interface Piece {
  readonly unit: WrittenUnit;
  readonly from: "heading" | "row" | "group" | "cells";
}

function writtenUnits({ own, fromRow, fromGroup, values }: ColumnFacts): Piece[] {
  const pieces = (units: readonly WrittenUnit[], from: Piece["from"]): Piece[] => units.map((unit) => ({ unit, from }));
  const written = [...pieces(own, "heading"), ...pieces(fromRow, "row")];
  const near = written.length > 0 || cellsSayUnit(values) ? [...written, ...pieces(values.units, "cells")] : [];
  return near.length > 0 ? near : pieces(fromGroup, "group");
}

/** The unit that is written, if it is one of the kind's and the only one; else a question. */
function withUnit(facts: ColumnFacts, name: string, pieces: readonly Piece[]): ColumnProposal {
  const { heading, kind, values } = facts;
  const word = words.kind[kind];
  const sorts = SORTS_OF[kind] ?? [];
  const fitting = pieces.filter(({ unit }) => sorts.includes(unit.sort));
  const choices = unitChoices(kind, name, values.figures);
  const units = [...new Set(fitting.map(({ unit }) => unit.unit))];
  const [first] = fitting;
  const strange = pieces.find(({ unit }) => !sorts.includes(unit.sort));
  if (strange && strange.unit.unit === "gallons") return asked(heading, kind, words.why.gallon, choices);
  if (!first) return asked(heading, kind, strange ? words.why.unitUnknown(word, strange.unit.unit) : words.why.unitMissing(word), choices);
  if (units.length > 1) return asked(heading, kind, words.why.unitsDisagree(units), units.map((unit) => headingFor(kind, unit, name)));
  if (strange && strange.from !== "heading") return asked(heading, kind, words.why.unitsDisagree([first.unit.unit, strange.unit.unit]), choices);
  const { unit } = first.unit;
  const unlikely = unlikelyIn(kind, unit, values.figures);
  if (unlikely !== null) return asked(heading, kind, words.why.unlikely(unit, String(unlikely)), choices);
  const meaning = headingFor(kind, unit, name);
  if (first.from === "row") return meant(heading, kind, meaning, "sure", words.why.unitFromRow(word, unit), unit);
  if (first.from === "group") return meant(heading, kind, meaning, "likely", words.why.unitFromGroup(word, unit, facts.group), unit);
  if (first.from === "cells") return meant(heading, kind, meaning, "likely", words.why.unitFromCells(word, unit), unit);
  return meant(heading, kind, meaning, facts.said.kind === kind && !facts.said.weak ? "sure" : "likely", words.why.headingAndUnit(word, unit), unit);
}

/** The name behind the word: of a screen where there are several, of a food where the heading names one. */
function nameFor({ kind, said, severalOfKind, screens }: ColumnFacts): { name: string; isOpen: boolean } {
  const { name } = said;
  if (kind === "feed") {
    if (name === "") return { name: "", isOpen: false };
    return { name, isOpen: foodWordIn(name) === null };
  }
  if (kind !== "harvest" && kind !== "fedBack" && kind !== "light" && kind !== "lightHours" && kind !== "lightLevel") return { name: "", isOpen: false };
  const pressed = kind === "harvest" && said.pressed ? "pressed" : "";
  return { name: [severalOfKind || screens.includes(name.toLowerCase()) ? name : "", pressed].filter(Boolean).join(" "), isOpen: false };
}

function namedAndNot({ kind, values }: ColumnFacts, name: string, pieces: readonly Piece[]): string[] {
  const sorts = SORTS_OF[kind] ?? [];
  const units = [...new Set(pieces.filter(({ unit }) => sorts.includes(unit.sort)).map(({ unit }) => unit.unit))];
  if (units.length === 0) return [...unitChoices(kind, "", values.figures), ...unitChoices(kind, name, values.figures)];
  return units.flatMap((unit) => [headingFor(kind, unit), headingFor(kind, unit, name)]);
}

function inRange({ heading, kind, values }: ColumnFacts, meaning: string, least: number, most: number): ColumnProposal {
  const outside = values.figures.find((figure) => figure < least || figure > most);
  // A single slip is the budget's to name; a column of them is another thing.
  const share = values.figures.filter((figure) => figure < least || figure > most).length / Math.max(1, values.figures.length);
  if (outside !== undefined && share > 0.2) return asked(heading, kind, words.why.unlikely(meaning, String(outside)), [meaning]);
  return meant(heading, kind, meaning, "sure", words.why.noUnitNeeded(words.kind[kind]));
}

function salinity(facts: ColumnFacts): ColumnProposal {
  const { heading, said, values } = facts;
  const other_ = writtenUnits(facts).find(({ unit }) => unit.sort !== "salinity");
  const most = Math.max(0, ...values.figures);
  if (said.density || (most > 0.95 && most < 1.1) || other_) return leftAlone(heading, "likely", words.why.density);
  return inRange(facts, "Salinity", 0, 42);
}

/** What was dosed or taken out counts where its form and its mass are stated. */
function other(facts: ColumnFacts): ColumnProposal {
  const { heading, kind, said, values } = facts;
  const word = kind === "otherIn" ? "Dosed" : "Removed";
  const [form] = said.forms;
  const bare = /\b([NP])\b/.exec(heading)?.[1];
  const named = form ?? bare;
  if (named === undefined && !/nitr|phos|stickstoff|azote|fosf/i.test(heading)) return leftAlone(heading, "likely", words.why.massWanted);
  const forms = named === undefined ? (/phos|fosf/i.test(heading) ? ["P", "PO4"] : ["N", "NO3"]) : [named];
  const masses = writtenUnits(facts).filter(({ unit }) => unit.sort === "mass").map(({ unit }) => unit.unit);
  const [unit] = masses;
  const choices = forms.flatMap((one) => (unit ? [unit] : ["g", "mg"]).map((mass) => `${word} ${one} (${mass})`));
  if (named === undefined || unit === undefined) return asked(heading, kind, unit === undefined ? words.why.massWanted : words.why.basisOpenHere(words.kind[kind]), choices);
  if (values.units.some((one) => one.unit !== unit)) return asked(heading, kind, words.why.unitsDisagree([unit, ...values.units.map((one) => one.unit)].slice(0, 2)), choices);
  return meant(heading, kind, `${word} ${named} (${unit})`, "sure", words.why.headingAndUnit(words.kind[kind], unit), unit, form ?? null);
}
