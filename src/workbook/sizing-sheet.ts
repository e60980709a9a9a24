import { ALGAE } from "../science/constants/algae";
import type { Ranged } from "../science/constants/foods";
import { PRACTICE } from "../science/constants/practice";
import { SIZING } from "../science/constants/sizing-start";
import { frozenEqual, type ScreenPlan, type ScreenWish, TENTH_POINT } from "../science/sizing-plan";
import { size } from "../words/size";
import { sizeSheet as words } from "../words/size-sheet";

/** A sheet before it stands in a workbook: rows of six cells, formulas in English notation, and how ranges of it look. */
export interface PlannedSheet {
  readonly cells: readonly (readonly (string | number)[])[];
  readonly headings: readonly string[];
  /** Cells to type in. */
  readonly inputs: readonly string[];
  readonly numberFormats: readonly { readonly address: string; readonly format: string }[];
}

export const COLUMNS = 6;
/** Rows below the foods that are ready for more of them. */
const SPARE_ROWS = 2;
const SHARE = "0.0%";
/** Converted from gallons or inches a figure has more digits than anyone measured. */
const tidy = (value: number): number => Number(value.toPrecision(6));

/**
 * The plan as a sheet: what was given stands as figures, all else is a formula of them. A formula whose answer spills to the right has
 * nothing but blanks there.
 */
export function sizingSheet(wish: ScreenWish, plan: ScreenPlan): PlannedSheet {
  const cells: (string | number)[][] = [];
  const headings: string[] = [];
  const inputs: string[] = [];
  const numberFormats: { address: string; format: string }[] = [];
  /** @returns the number of the row, as addresses count it */
  const add = (...row: (string | number)[]): number => cells.push([...row, ...new Array<string>(COLUMNS - row.length).fill("")]);
  const heading = (texts: readonly string[]): void => void headings.push(`A${add(...texts)}:F${cells.length}`);
  const gap = (): number => add();
  const format = (address: string, form: string): void => void numberFormats.push({ address, format: form });

  headings.push(`A${add(words.title)}`);
  for (const note of words.notes) add(note);
  gap();

  heading(words.foods);
  const firstFood = cells.length + 1;
  const lastFood = firstFood + wish.foods.length + SPARE_ROWS - 1;
  const totals = lastFood + 1;
  // The inputs begin under the totals, a blank row and their heading; their order is that of the labels.
  const inputRow = (key: keyof typeof words.inputs): number => totals + 3 + Object.keys(words.inputs).indexOf(key);
  const at = (key: keyof typeof words.inputs): string => `$B$${inputRow(key)}`;
  for (let row = firstFood; row <= lastFood; row += 1) {
    const given = wish.foods[row - firstFood];
    const load = (nutrient: "N" | "P"): string => `=IF(OR(A${row}="",B${row}=""),"",ALGAL.FEEDLOAD_${nutrient}(B${row},A${row},"g",,${at("retained")}))`;
    add(given?.food.name ?? "", given ? tidy(given.gPerDay) : "", load("N"), load("P"), given ? tidy(frozenEqual(given.food)) : "", `=IF(OR(B${row}="",E${row}=""),"",B${row}*E${row})`);
  }
  inputs.push(`A${firstFood}:B${lastFood}`, `E${firstFood}:E${lastFood}`);
  const sum = (column: string): string => `=SUM(${column}${firstFood}:${column}${lastFood})`;
  add(words.together, sum("B"), sum("C"), sum("D"), "", sum("F"));
  format(`C${firstFood}:D${totals}`, "0.0000");
  gap();

  heading(words.given);
  const given: Record<keyof typeof words.inputs, string | number> = {
    retained: wish.retainedShare,
    volume: tidy(wish.volumeL),
    changed: wish.changedShareAWeek,
    no3: wish.targetNO3MgPerL ?? "",
    po4: wish.targetPO4MgPerL ?? "",
    temperature: tidy(wish.temperatureC),
    setting: wish.setting,
    light: wish.lightUmolPerM2S,
    hours: wish.hoursPerDay,
    width: tidy(wish.sheetWidthCm),
    sides: wish.litSides,
    loadError: plan.loadShare,
  };
  for (const [key, label] of Object.entries(words.inputs)) add(label, given[key as keyof typeof given]);
  inputs.push(`B${inputRow("retained")}:B${inputRow("loadError")}`);
  for (const key of ["retained", "changed", "loadError"] as const) format(`B${inputRow(key)}`, SHARE);
  gap();

  heading(words.assumed);
  const assumed = (label: string, { value, low, high }: Ranged): { row: number; mean: string; u: string } => {
    const row = cells.length + 1;
    // Mean and standard uncertainty of a triangular spread (JCGM 100:2008, 4.3.9).
    add(label, value, low, high, `=AVERAGE(B${row}:D${row})`, `=SQRT((B${row}^2+C${row}^2+D${row}^2-B${row}*C${row}-B${row}*D${row}-C${row}*D${row})/18)/E${row}`);
    inputs.push(`B${row}:D${row}`);
    format(`F${row}`, SHARE);
    return { row, mean: `$E$${row}`, u: `$F$${row}` };
  };
  const efficacy = assumed(words.constants.lampEfficacy, PRACTICE.lampEfficacy).row;
  const reaching = assumed(words.constants.lightReaching, PRACTICE.lightReaching).row;
  const dry = assumed(words.constants.dryFraction, ALGAE.dryFractionDrained);
  const tissueN = assumed(words.constants.tissueN, ALGAE.tissueN);
  const tissueP = assumed(words.constants.tissueP, ALGAE.tissueP);
  const tallest = `$B$${add(words.constants.tallest, SIZING.tallestSheet.value)}`;
  inputs.push(`B${cells.length}`);
  format(`B${efficacy}:E${efficacy}`, "0.00");
  format(`B${reaching}:E${reaching}`, "0.00");
  for (const { row } of [dry, tissueN, tissueP]) format(`B${row}:E${row}`, "0.00%");
  gap();

  heading(words.answer);
  const changes = (nutrient: "N" | "P", target: string, basis: string): string => {
    const row = add(nutrient === "N" ? words.answers.changesN : words.answers.changesP, "", `=IF(${target}="",0,ALGAL.CHANGE_${nutrient}_EXPORT(${target},"${basis}",${at("volume")}*${at("changed")}/7))`, "", words.changesNote);
    return `C${row}`;
  };
  const taken = { N: changes("N", at("no3"), "mg/L NO3"), P: changes("P", at("po4"), "mg/L PO4") };
  const left = (nutrient: "N" | "P"): string => {
    const row = cells.length + 1;
    const label = nutrient === "N" ? words.answers.leftN : words.answers.leftP;
    add(label, `=C${row}*(1-${at("loadError")})`, `=MAX(0,${nutrient === "N" ? "C" : "D"}${totals}-${taken[nutrient]})`, `=C${row}*(1+${at("loadError")})`);
    return `$C$${row}`;
  };
  const loads = { N: left("N"), P: left("P") };
  format(`B${cells.length - 3}:D${cells.length}`, "0.0000");
  const lightRow = add(words.answers.lightSum, "", `=ALGAL.LIGHT_DAILY(${at("light")},${at("hours")})`);
  const lightSum = `$C$${lightRow}`;
  const conditions = `${lightSum},${at("no3")},${at("po4")},${at("temperature")},${at("setting")}`;
  const areaRow = add(words.answers.area, `=ALGAL.SCRUBAREA_NEEDED(${loads.N},${loads.P},${conditions},,${at("loadError")})`);
  format(`B${areaRow}:D${areaRow}`, "0.000");
  const middle = `$C$${areaRow}`;
  const wholeHeight = `${middle}/(${at("sides")}*${at("width")}/100)*100`;
  const sheets = `$C$${add(words.answers.sheets, "", `=MAX(1,ROUNDUP(${wholeHeight}/${tallest},0))`)}`;
  const height = add(words.answers.height, "", `=${wholeHeight}/${sheets}`);
  add(words.answers.flow, `=ALGAL.FLOW_NEEDED(${at("width")},${sheets})`);
  const power = (column: string): string => `=${middle}*${at("light")}/(${column}${efficacy}*${column}${reaching})`;
  const watts = add(words.answers.watts, power("D"), power("B"), power("C"));
  const energy = (column: string): string => `=${column}${watts}*${at("hours")}*7/1000`;
  const energyRow = add(words.answers.energy, energy("B"), energy("C"), energy("D"));
  const harvest = cells.length + 1;
  const tissueU = `IF(${loads.N}/${tissueN.mean}>=${loads.P}/${tissueP.mean},${tissueN.u},${tissueP.u})`;
  const spread = `EXP(${TENTH_POINT}*SQRT(${at("loadError")}^2/3+${tissueU}^2+${dry.u}^2))`;
  add(words.answers.harvest, `=C${harvest}/${spread}`, `=MAX(${loads.N}/${tissueN.mean},${loads.P}/${tissueP.mean})*7/${dry.mean}`, `=C${harvest}*${spread}`, words.harvestNote);
  format(`C${height}:C${height}`, "0.0");
  format(`C${lightRow}`, "0.00");
  format(`B${watts}:D${energyRow}`, "0.0");
  format(`B${harvest}:D${harvest}`, "0");
  gap();

  heading(words.habit);
  const habit = add(words.habitArea, `=ALGAL.SCRUBAREA_HABIT(F${totals},${loads.N},${loads.P},${conditions})`);
  format(`B${habit}:C${habit}`, "0.000");
  format(`D${habit}:E${habit}`, SHARE);
  gap();

  heading(words.interval);
  const interval = add(words.intervalDays, "=ALGAL.HARVEST_INTERVAL()");
  format(`B${interval}:E${interval}`, "0.0");
  gap();

  headings.push(`A${add(size.cautionsTitle)}`);
  for (const { title, text } of size.cautions) add(`${title} ${text}`);
  return { cells, headings, inputs, numberFormats };
}
