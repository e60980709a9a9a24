import { mostTissue, usualDryFraction, usualTissue } from "../../science/harvest";
import type { Nutrient } from "../../science/nutrient-forms";
import type { CellWriter } from "../cell-writer";
import { FoodsBlock } from "../foods";
import type { Rule } from "../rule";

/** The dry fraction that a cell gives, or the usual one of drained or pressed algae. */
function dryFraction(writer: CellWriter, place: number, howPlace: number): string {
  const how = writer.word(howPlace, "drained").toLowerCase() === "pressed" ? "pressed" : "drained";
  return writer.share(place, 0.5, writer.constant(usualDryFraction(how)));
}

/** Grams of N or P that left with a harvest. */
const exported = (writer: CellWriter, nutrient: Nutrient, places: { dry: number; tissue: number; fedBack: number; how: number }): string =>
  `${writer.number(0)}*${dryFraction(writer, places.dry, places.how)}*${writer.share(places.tissue, mostTissue(nutrient), writer.constant(usualTissue(nutrient)))}*(1-${writer.share(places.fedBack, 1, "0")})`;

const harvestExport = (nutrient: Nutrient): Rule => ({ kind: "cells", write: (writer) => exported(writer, nutrient, { dry: 1, tissue: 2, fedBack: 3, how: 4 }) });

/** What a harvest weighs dry, what leaves with it, how fast it grew. */
export const harvestRules: Readonly<Record<string, Rule>> = {
  HARVEST_DRY: { kind: "cells", write: (writer) => `${writer.number(0)}*${dryFraction(writer, 1, 2)}` },
  HARVEST_N_EXPORT: harvestExport("N"),
  HARVEST_P_EXPORT: harvestExport("P"),
  HARVEST_GROWTH: { kind: "cells", write: (writer) => `${writer.number(0)}*${dryFraction(writer, 3, 4)}/(${writer.number(1, { open: true })}*${writer.number(2, { open: true })})` },
  HARVEST_FEED_EQUIVALENT: {
    kind: "cells",
    whole: [6],
    write: (writer) => {
      const nutrient = writer.word(2, "N").toUpperCase() === "P" ? "P" : "N";
      const grams = exported(writer, nutrient, { dry: 3, tissue: 4, fedBack: 5, how: 7 });
      return `${grams}/${FoodsBlock.of(writer.workspace, writer.range(6)).figure(writer.needed(1), nutrient)}`;
    },
  },
};
