import { ALGAE } from "../../science/constants/algae";
import type { Constant } from "../../science/constants/constant";
import { BUDGET_DEFAULT } from "../../science/constants/practice";
import type { SetUp } from "../../science/budget/log";
import { mostTissue, usualTissue } from "../../science/harvest";
import { formsOf, nutrientOf, substanceOf, type Form, type Nutrient } from "../../science/nutrient-forms";
import { volume as volumeFactor } from "../../functions/log-headings";
import { budget as words } from "../../words/native-account";
import { NotWritable } from "../not-writable";
import type { FoodsBlock } from "../foods";
import { quoted } from "../given";
import type { Sources } from "../sources";
import type { Checks } from "./checks";
import type { ScreenCells } from "./entries";
import { type QuantityCells, type QuantityTable, type QuantityText, withinShareText } from "./quantities";
import { numberText, type SetUpCells } from "./set-up-cells";

/** Factors and limits of a concentration that the set-up states, as formulas. */
export type StatedConcentration = (form: Form, key: string) => { readonly low: string; readonly high: string } | null;

const ALL_FORMS: readonly Form[] = ["N", "NO3", "NO3-N", "NO2", "NO2-N", "NH3", "NH3-N", "NH4", "NH4-N", "P", "PO4", "PO4-P", "P2O5"];

/** Writes the quantities that the set-up states, or the usual ones, into the table of an account. */
export class SetUpQuantities {
  constructor(private readonly cells: SetUpCells, private readonly table: QuantityTable, private readonly sources: Sources, private readonly nutrient: Nutrient, private readonly checks: Checks) {}

  volume(): QuantityCells {
    const row = this.cells.limited({ open: true }, "volume", "water volume");
    if (!row) throw new NotWritable();
    const factor = volumeFactor("volume", row.unit, "Volume (L)");
    const litres = `${numberText(row.given)}${factor === 1 ? "" : `*${factor}`}`;
    return this.table.add(withinShareText(words.names.volume, litres, this.setting("volume error", BUDGET_DEFAULT.volumeShare)));
  }

  retained(): QuantityCells {
    const stated = this.cells.share(1, "retained", "retained share");
    if (stated === null) return this.table.add(this.usual(words.names.retained, BUDGET_DEFAULT.retained));
    const half = `MIN(0.5*${stated},1-${stated})`;
    return this.table.add({ name: words.names.retained, low: `${stated}-${half}`, high: `${stated}+${half}`, shape: "rectangular" });
  }

  topUp(stated: StatedConcentration): QuantityCells {
    return this.carried(words.names.topUp, "top-up", ALL_FORMS.filter((form) => nutrientOf(form) === this.nutrient), stated);
  }

  incoming(test: string, form: Form, stated: StatedConcentration): QuantityCells {
    const forms = form === "N" ? ALL_FORMS.filter((one) => nutrientOf(one) === "N") : formsOf(substanceOf(form));
    return this.carried(words.names.incoming(test), "new water", forms, stated);
  }

  scale(test: string, form: Form, hasKit: boolean): QuantityCells {
    const own = this.cells.share(1, ...[form, ...formsOf(substanceOf(form))].map((one) => `${one} kit error`));
    return this.table.add(withinShareText(words.names.scale(test), "1", own ?? this.sources.constant(hasKit ? BUDGET_DEFAULT.kitScale : BUDGET_DEFAULT.kitShare)));
  }

  food(name: string, block: FoodsBlock): QuantityCells {
    const figure = (limit: "" | "low" | "high"): string => block.figure(quoted(name), `${this.nutrient}${limit}`);
    return this.table.add({ name: words.names.food(name), best: figure(""), low: figure("low"), high: figure("high"), shape: "triangular" });
  }

  screen(unit: SetUp["units"][number]): ScreenCells {
    const { name } = unit;
    const shown = words.names.screen(name);
    const keys = (word: string): string[] => (name ? [`${word} ${name}`, word] : [word]);
    return {
      name,
      drained: this.table.add(this.ownOrUsual(words.names.drained(shown), 0.5, keys("dry fraction"), ALGAE.dryFractionDrained)),
      pressed: this.table.add(this.ownOrUsual(words.names.pressed(shown), 0.5, keys("dry fraction pressed"), ALGAE.dryFractionPressed)),
      tissue: this.table.add(this.ownOrUsual(words.names.tissue(shown), mostTissue(this.nutrient), keys(`tissue ${this.nutrient}`), usualTissue(this.nutrient))),
      cropGuess: this.table.add({ name: words.names.crop(shown), low: "0", high: "2", shape: "rectangular" }),
    };
  }

  /** A share that the set-up states, or the usual one. */
  setting(key: string, usual: Constant): string {
    return this.cells.share(1, key) ?? this.sources.constant(usual);
  }

  private carried(name: string, word: string, forms: readonly Form[], stated: StatedConcentration): QuantityCells {
    const found = forms.flatMap((form) => {
      const one = stated(form, `${word} ${form}`);
      return one ? [one] : [];
    });
    const sum = (which: "low" | "high"): string => (found.length === 0 ? "0" : found.map((one) => one[which]).join("+"));
    return this.table.add({ name, low: sum("low"), high: sum("high"), shape: "rectangular" });
  }

  private usual(name: string, constant: Constant): QuantityText {
    return { name, best: this.sources.constant(constant), low: this.sources.constant(constant, "low"), high: this.sources.constant(constant, "high"), shape: "triangular" };
  }

  private ownOrUsual(name: string, most: number, keys: readonly string[], usual: Constant): QuantityText {
    const own = this.cells.share(most, ...keys);
    if (own === null) return this.usual(name, usual);
    const limit = (which: string): string | null => this.cells.share(most, ...keys.map((key) => `${key} ${which}`));
    const [low, high] = [limit("low"), limit("high")];
    const share = this.sources.constant(BUDGET_DEFAULT.measuredShare);
    const usualLimits = { low: `${own}-${own}*${share}`, high: `${own}+${own}*${share}` };
    if (low === null && high === null) return { name, ...usualLimits, shape: "rectangular" };
    const limits = { low: low ?? usualLimits.low, high: high ?? usualLimits.high };
    this.checks.add(words.checks.limits(name), `${limits.low}<=${own}`, `${own}<=${limits.high}`);
    return { name, best: own, ...limits, shape: "triangular" };
  }
}

