import { FOODS_HEADINGS } from "../functions/foods-range";
import { splitHeading } from "../functions/log-headings";
import { FOODS } from "../science/constants/foods";
import { BUDGET_DEFAULT } from "../science/constants/practice";
import { native as words } from "../words/native";
import { NotWritable } from "./not-writable";
import { anyOf, type GivenRange, isBlankValue, isNothing, quoted } from "./given";
import { nothingBelow } from "./rows-below";
import type { BlockAnswer } from "./rule";
import type { Workspace } from "./workspace";

/** Columns of the block of foods: what one gram as fed holds, g, with its limits, and the mass of a portion, g. */
export type FoodColumn = "name" | "N" | "Nlow" | "Nhigh" | "P" | "Plow" | "Phigh" | "portion";
const COLUMNS: readonly FoodColumn[] = ["name", "N", "Nlow", "Nhigh", "P", "Plow", "Phigh", "portion"];
/** The factor of a food whose row has none. */
const USUAL_FACTOR = { name: "g protein per g N where a food's row gives none", value: 6.25, unit: "1", from: "Definition of crude protein in feed analysis" };
type Line = (string | { formula: string })[];

/** The foods that a formula can name, the keeper's rows before the built-in ones, as a block of the workings. */
export class FoodsBlock {
  private constructor(private readonly block: BlockAnswer) {}

  static of(workspace: Workspace, given: GivenRange | null): FoodsBlock {
    const isGiven = given !== null && given.rows.some((row) => row.some(({ value }) => !isBlankValue(value)));
    const block = workspace.blockOnce(`foods ${given?.text ?? ""}`, () => {
      if (!given) return workspace.block(words.foods.title, words.foods.note, [[...words.foods.headings], ...builtInLines(workspace)]);
      return workspace.block(words.foods.title, words.foods.note, (cell) => {
        // One row that cannot be used leaves no food to any formula: our functions take the sheet as a whole.
        const gate = cell(0, COLUMNS.length + 1);
        const own = isGiven ? keeperLines(given, workspace, cell) : { lines: [], usable: [], conditions: [`SUMPRODUCT(--(LEN(TRIM(${given.text}))>0))=0`] };
        const lines = [...own.lines, ...builtInLines(workspace)].map(([name = "", ...figures]): Line => [name, ...figures.map((figure) => (typeof figure === "string" ? figure : { formula: `(${figure.formula})*${gate}` }))]);
        return [
          [...words.foods.headings, words.foods.usable, { formula: `IF(AND(${own.conditions.join(",")}),1,NA())` }],
          ...lines.map((line, row) => (row < own.usable.length ? [...line, { formula: own.usable[row] ?? "" }] : line)),
        ];
      });
    });
    return new FoodsBlock(block);
  }

  /** The cells of a column, from the first food to the last. */
  column(which: FoodColumn): string {
    const place = COLUMNS.indexOf(which);
    return `${this.block.cell(1, place)}:${this.block.cell(this.block.rows - 1, place).split("!").pop() ?? ""}`;
  }

  /** A figure of the food that a cell names; #N/A when there is no such food. */
  figure(name: string, which: FoodColumn): string {
    return `INDEX(${this.column(which)},MATCH(${name.startsWith('"') ? name : withoutPatterns(`TRIM(${name})`)},${this.column("name")},0))`;
  }
}

function builtInLines(workspace: Workspace): Line[] {
  return FOODS.map((food): Line => {
    const at = workspace.sources.food(food);
    const share = (figure: string, divisor: string): { formula: string } => ({ formula: `${figure}/${divisor}` });
    return [
      { formula: at.name },
      ...[at.protein, at.proteinLow, at.proteinHigh].map((figure) => share(figure, `(100*${at.factor})`)),
      ...[at.phosphorus, at.phosphorusLow, at.phosphorusHigh].map((figure) => share(figure, "100000")),
      food.portionG ? { formula: at.portion } : { formula: "NA()" },
    ];
  });
}

/** One line for each row of the keeper's Foods sheet; a blank row names no food. */
function keeperLines(given: GivenRange, workspace: Workspace, own: BlockAnswer["cell"]): KeeperLines {
  const { rows } = given;
  const headings = (rows[0] ?? []).map(({ value }) => splitHeading(isBlankValue(value) ? "" : String(value)));
  const place = (key: keyof typeof FOODS_HEADINGS, limit = ""): number => headings.findIndex(({ name }) => name.toLowerCase() === splitHeading(FOODS_HEADINGS[key]).name.toLowerCase() + limit);
  const spread = workspace.sources.constant(BUDGET_DEFAULT.foodShare);
  const factorAt = workspace.sources.coefficient(USUAL_FACTOR);
  const unit = (limit: string): string => (headings[place("phosphorus", limit)]?.unit ?? "").toLowerCase().replace(/\s/g, "");
  const inGrams = unit("") === "g/100g";
  if ([" low", " high"].some((limit) => place("phosphorus", limit) >= 0 && (unit(limit) === "g/100g") !== inGrams)) throw new NotWritable();
  const count = rows.length - 1;
  const names = `${own(1, 0)}:${own(Math.max(1, count), 0).split("!").pop() ?? ""}`;
  const usable: string[] = [];
  const lines = rows.slice(1).map((row, line): Line => {
    const cell = (key: keyof typeof FOODS_HEADINGS, limit = ""): string | null => row[place(key, limit)]?.text ?? null;
    if (row.some(({ value }, at) => typeof value === "string" && !isBlankValue(value) && at !== place("food") && Object.keys(FOODS_HEADINGS).some((key) => ["", " low", " high"].some((limit) => place(key as never, limit) === at)))) throw new NotWritable();
    const [food, protein, phosphorus] = [cell("food"), cell("protein"), cell("phosphorus")];
    if (food === null || protein === null || phosphorus === null) throw new NotWritable();
    const factorCell = cell("factor");
    const factor = factorCell === null ? factorAt : `IF(${isNothing(factorCell)},${factorAt},${factorCell})`;
    const outside = (own: string | null, least: number, most: number): string[] => (own === null ? [] : [`AND(${own}<>"",OR(${own}<${least},${own}>${most}))`]);
    const three = (figure: string, low: string | null, high: string | null, most: number, divisor: string): { formula: string }[] => {
      const refused = anyOf([isNothing(figure), ...[figure, low, high].flatMap((own) => outside(own, 0, most)), ...outside(factorCell, 4, 10)]);
      const limit = (own: string | null, usual: string): string => (own === null ? usual : `IF(${isNothing(own)},${usual},${own})`);
      const known = (text: string): { formula: string } => ({ formula: `IF(${refused},NA(),${text}/${divisor})` });
      return [known(figure), known(`MIN(${figure},${limit(low, `${figure}*(1-${spread})`)})`), known(`MAX(${figure},${limit(high, `${figure}*(1+${spread})`)})`)];
    };
    const portion = cell("portion");
    const figures = [[protein, 0, 100], [cell("protein", " low"), 0, 100], [cell("protein", " high"), 0, 100], ...[phosphorus, cell("phosphorus", " low"), cell("phosphorus", " high")].map((own) => [own, 0, inGrams ? 5 : 5000] as const), [factorCell, 4, 10], [portion, 0, 100_000]] as const;
    const refused = anyOf([isNothing(food), isNothing(protein), isNothing(phosphorus), `SUMPRODUCT(--(${names}=${own(line + 1, 0)}))>1`, ...figures.flatMap(([own, least, most]) => outside(own, least, most))]);
    usable.push(`IF(LEN(${food})+LEN(${protein})+LEN(${phosphorus})=0,1,IF(${refused},0,1))`);
    return [
      { formula: `IF(${isNothing(food)},"",TRIM(${food}))` },
      ...three(protein, cell("protein", " low"), cell("protein", " high"), 100, `(100*${factor})`),
      ...three(phosphorus, cell("phosphorus", " low"), cell("phosphorus", " high"), inGrams ? 5 : 5000, inGrams ? "100" : "100000"),
      { formula: portion === null ? "NA()" : `IF(${anyOf([isNothing(portion), ...outside(portion, 0, 100_000)])},NA(),${portion})` },
    ];
  });
  const column = `${own(1, COLUMNS.length)}:${own(Math.max(1, count), COLUMNS.length).split("!").pop() ?? ""}`;
  const asBefore = (rows[0] ?? []).filter(({ literal }) => !literal).map(({ text, value }) => (isBlankValue(value) ? `LEN(TRIM(${text}))=0` : `EXACT(${text},${quoted(String(value))})`));
  return { lines, usable, conditions: [...asBefore, `SUM(${column})=${count}`, ...nothingBelow(given, place("food"), workspace.book)] };
}

/** The keeper's rows, whether each can be used, and what has to hold for all of them. */
interface KeeperLines {
  readonly lines: readonly Line[];
  readonly usable: readonly string[];
  readonly conditions: readonly string[];
}

/** To a search a star and a question mark stand for other letters. */
const withoutPatterns = (text: string): string => `SUBSTITUTE(SUBSTITUTE(${text},"*","~*"),"?","~?")`;
