import { CONDITION_LIMITS } from "../../functions/log-conditions";
import { nutrientOf, type Basis } from "../../science/nutrient-forms";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { basisRules } from "../functions/basis";
import { literal, ruleText } from "../rule-text";
import type { Workspace } from "../workspace";
import type { SetUpCells } from "./set-up-cells";
import { Table } from "./table";

const MOST_SETTINGS = 40;

/** What an account reads in many places: checks, half-widths, factors. */
export class Settings {
  private readonly table: Table<"name" | "value">;
  private readonly known = new Map<string, string>();

  constructor(draft: Draft, left: number, private readonly workspace: Workspace, private readonly setUp: SetUpCells) {
    this.table = new Table(draft, left, words.settings, words.settingHeadings, MOST_SETTINGS);
  }

  get next(): number {
    return this.table.next;
  }

  /** Puts a setting, once; gives its cell. */
  put(name: string, formula: string): string {
    const known = this.known.get(name);
    if (known !== undefined) return known;
    const row = this.known.size;
    this.table.put(row, "name", name);
    this.table.formula(row, "value", formula);
    const cell = this.table.cell(row, "value");
    this.known.set(name, cell);
    return cell;
  }

  /** Milligrams of the element per litre that one unit of the basis stands for. */
  elementMgPerL(basis: Basis): string {
    const written = `${basis.unit} ${basis.form}`;
    const of = (key: "salinity" | "temperature") => this.setUp.limited(key === "salinity" ? CONDITION_LIMITS.salinity : CONDITION_LIMITS.temperatureC, key)?.given ?? null;
    return this.put(words.settingNames.element(written), ruleText(basisRules.ION_CONVERT, "ION_CONVERT", [literal(1), literal(written), literal(`mg/L ${nutrientOf(basis.form)}`), of("salinity"), of("temperature")], [], this.workspace));
  }
}
