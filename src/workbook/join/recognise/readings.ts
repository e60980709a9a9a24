import { join as words } from "../../../words/join";
import { conversionFactor, substanceOf, type Form } from "../../../science/nutrient-forms";
import { formsOfKind, testChoices, testHeading, unlikelyIn } from "./choices";
import { kindOfForm } from "./meaning";
import { asked, meant, type ColumnFacts, type ColumnProposal } from "./proposal";
import type { WrittenUnit } from "./units";
import { cellsSayUnit } from "./values";

const USUAL_UNITS = ["mg/L", "ug/L", "umol/L", "mg/kg"] as const;
/** What ppm and ppb can mean. */
const OPEN_UNITS: Readonly<Record<string, readonly string[]>> = { ppm: ["mg/L", "mg/kg"], ppb: ["ug/L", "ug/kg"] };

/** A test is settled only when the form and the unit are both written somewhere, and nowhere otherwise. */
export function testProposal(facts: ColumnFacts): ColumnProposal {
  const { heading, kind, said } = facts;
  const written = unitsOf(facts);
  const forms = statedForms(facts, written);
  const isOpen = forms.length === 0;
  const units = [...new Set(written.map(({ unit }) => unit))];
  const figures = facts.values.figures;
  // A bare N is most often the nitrate, counted as one or the other.
  const candidates = isOpen ? (kind === "totalNitrogen" ? (["NO3-N", "NO3", "N"] as const) : formsOfKind(kind)) : forms;
  const possible = units.length === 0 ? usualFirst(candidates, figures) : units.flatMap((unit) => OPEN_UNITS[unit] ?? [unit]);
  const choices = testChoices(candidates, possible);
  if (said.factor) return asked(heading, kind, words.why.factor, testChoices(formsOfKind(kind), possible));
  if (said.substances > 1) return asked(heading, kind, words.why.severalTests, choices);
  if (forms.length > 1) return asked(heading, kind, words.why.basisDisagrees(forms), choices);
  if (units.length > 1) return asked(heading, kind, words.why.unitsDisagree(units), choices);
  const [form] = forms;
  const [unit] = units;
  if (form === undefined) return asked(heading, kind, [openForm(kind), ...(unit === undefined ? [words.why.unitMissing(words.kind[kind])] : unit in OPEN_UNITS ? [words.why.ppm] : [])].join(" "), choices);
  // A bare N or P can be the element of any form.
  if (form === "N" && !/total|gesamt|\btn\b/i.test(heading)) return asked(heading, "totalNitrogen", words.why.basisOpenHere(words.kind.totalNitrogen), testChoices(["NO3-N", "N", "NO3"], possible));
  if (form === "P") return asked(heading, kind, words.why.basisOpenHere(words.kind.phosphate), testChoices(["PO4-P", "PO4", "P"], possible));
  if (unit === undefined) return asked(heading, kind, words.why.unitMissing(form), choices);
  if (unit in OPEN_UNITS) return asked(heading, kind, words.why.ppm, choices);
  const unlikely = unlikelyIn(form, unit, figures);
  if (unlikely !== null) return asked(heading, kind, words.why.unlikely(`${unit} ${form}`, String(unlikely)), [testHeading(form, unit), ...testChoices([form], USUAL_UNITS), ...testChoices(formsOfKind(kind), [unit])]);
  const [first] = written;
  const meaning = testHeading(form, unit);
  switch (first?.from) {
    case "row":
      return meant(heading, kind, meaning, "sure", words.why.unitFromRow(form, unit), unit, form);
    case "group":
      return meant(heading, kind, meaning, "likely", words.why.unitFromGroup(form, unit, facts.group), unit, form);
    case "cells":
      return meant(heading, kind, meaning, "likely", words.why.unitFromCells(form, unit), unit, form);
    default:
      return meant(heading, kind, meaning, said.kind === kind ? "sure" : "likely", words.why.headingAndUnit(form, unit), unit, form);
  }
}

interface PlacedUnit {
  readonly unit: string;
  readonly form: Form | null;
  readonly from: "heading" | "row" | "group" | "cells";
}

/** Units of concentration wherever they stand, the heading first. A group's unit gives way to the column's own. */
function unitsOf({ own, fromRow, fromGroup, values }: ColumnFacts): PlacedUnit[] {
  const isConcentration = ({ sort, unit }: WrittenUnit): boolean => sort === "concentration" || (sort === "open" && unit in OPEN_UNITS);
  const placed = (units: readonly WrittenUnit[], from: PlacedUnit["from"]): PlacedUnit[] => units.filter(isConcentration).map(({ unit, form }) => ({ unit, form, from }));
  const written = [...placed(own, "heading"), ...placed(fromRow, "row")];
  const near = written.length > 0 || cellsSayUnit(values) ? [...written, ...placed(values.units, "cells")] : [];
  return near.length > 0 ? near : placed(fromGroup, "group");
}

/** The forms that are stated in the words and beside the units, without those of another substance; N beside nitrate is NO3-N. */
function statedForms({ kind, said, fromGroup }: ColumnFacts, units: readonly PlacedUnit[]): Form[] {
  const beside = [...units, ...fromGroup].map(({ form }) => form).filter((form): form is Form => form !== null).map((form) => asOf(kind, form, said.forms));
  const stated = [...new Set([...said.forms, ...beside, ...(said.element && said.forms.length > 0 ? [asOf(kind, said.element, said.forms)] : [])])].filter((form) => kindOfForm(form) === kind);
  // NO3 as a word beside "as N" is only the name of the test.
  const elements = beside.filter((form) => form.endsWith("-N") || form.endsWith("-P"));
  const named = said.forms.every((form) => elements.length > 0 && substanceOf(form) === substanceOf(elements[0] ?? form) && !form.includes("-"));
  return elements.length > 0 && named && beside.every((form) => elements.includes(form)) ? [...new Set(elements)] : stated;
}

function asOf(kind: ColumnFacts["kind"], form: Form, said: readonly Form[]): Form {
  if (form === "N") return kind === "nitrate" ? "NO3-N" : kind === "nitrite" ? "NO2-N" : kind === "ammonia" ? (said.includes("NH3") ? "NH3-N" : "NH4-N") : "N";
  return form === "P" ? "PO4-P" : form;
}

function openForm(kind: ColumnFacts["kind"]): string {
  const [ion, element] = formsOfKind(kind);
  if (ion === undefined || element === undefined) return words.why.basisOpenHere(words.kind[kind]);
  return words.why.basisOpen(ion, element, conversionFactor({ unit: "mg/L", form: element }, { unit: "mg/L", form: ion }).toPrecision(3));
}

/** Units in which the figures would be usual come first. */
function usualFirst(forms: readonly Form[], figures: readonly number[]): string[] {
  const [form] = forms;
  const unusual = (unit: string): number => (form !== undefined && unlikelyIn(form, unit, figures) !== null ? 1 : 0);
  return [...USUAL_UNITS].sort((a, b) => unusual(a) - unusual(b));
}
