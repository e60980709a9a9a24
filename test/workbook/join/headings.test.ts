import { findLog } from "../../../src/workbook/join/recognise/find-log";
import { proposeColumns, type Knowledge } from "../../../src/workbook/join/recognise/propose";
import type { ColumnProposal } from "../../../src/workbook/join/recognise/proposal";

/** A log of one column beside the date, with the same figure in each row. */
function column(heading: string, figure: unknown, known?: Knowledge): ColumnProposal {
  const grid = [["Date", heading], ...Array.from({ length: 8 }, (_, day) => [46000 + day, figure])];
  const found = findLog(grid, { row: 0, column: 0 });
  if ("reason" in found) throw new Error(found.reason);
  const [, second] = proposeColumns(grid, found, known);
  if (!second) throw new Error("no second column");
  return second;
}

describe("a basis that is written", () => {
  test.each([
    ["NO3 as N (mg/L)", "NO3-N (mg/L)"], ["Nitrate-N mg/l", "NO3-N (mg/L)"], ["Nitrate (NO3-N) mg/L", "NO3-N (mg/L)"], ["Nitrat als N (mg/l)", "NO3-N (mg/L)"], ["Nitrat (mg/l N)", "NO3-N (mg/L)"], ["Nitratstickstoff mg/l", "NO3-N (mg/L)"],
    ["azote nitrique (mg/L)", "NO3-N (mg/L)"], ["N-NO3 mg/L", "NO3-N (mg/L)"], ["Nitrate (as NO3) mg/L", "NO3 (mg/L)"], ["Nitrate, mg NO3/L", "NO3 (mg/L)"], ["NO₃⁻ [µmol/l]", "NO3 (umol/L)"], ["Phosphat-P µg/l", "PO4-P (ug/L)"], ["Phosphorus, mg/L PO4", "PO4 (mg/L)"], ["TAN mg/L", "NH4-N (mg/L)"],
  ])("%s is %s", (heading, meaning) => expect(column(heading, heading.includes("g/l") && /µ|u/.test(heading) ? 30 : 2)).toMatchObject({ meaning, sureness: "sure" }));
});

describe("never taken without a question", () => {
  test.each([
    ["Nitrate (mg/L)", 10, "NO3-N (mg/L)"], ["Nitrat mg/l", 10, "NO3 (mg/L)"], ["nitrates", 10, "NO3 (mg/L)"], ["nitrato (mg/L)", 10, "NO3-N (mg/L)"], ["Phosphate (mg/L)", 0.1, "PO4-P (mg/L)"], ["Phosphor (µg/l)", 30, "PO4 (ug/L)"], ["Ammonia (mg/L)", 0.1, "NH3-N (mg/L)"],
    ["NO3-N (mg/L NO3)", 2, "NO3 (mg/L)"], ["NO3 mg/L (N)", 2, "NO3-N (mg/L)"], ["PO4 (P) ug/L", 30, "PO4-P (ug/L)"], ["NO3 mg/L (N x 4.4)", 10, "NO3-N (mg/L)"], ["NO2/NO3 (mg/L)", 5, "NO3 (mg/L)"], ["NO3+NO2 (mg/L)", 5, "NO3 (mg/L)"], ["N (mg/L)", 2, "NO3-N (mg/L)"], ["P (mg/L)", 0.1, "PO4 (mg/L)"],
    ["NO3 (ppm)", 10, "NO3 (mg/kg)"], ["PO4-P ppb", 30, "PO4-P (ug/kg)"], ["NO3", 10, "NO3 (umol/L)"], ["NO3 (mg)", 10, "NO3 (mg/L)"], ["NO3 (mg/100ml)", 1, "NO3 (mg/L)"],
    ["Harvest", 200, "Harvest (g)"], ["Harvest (oz)", 7, "Harvest (g)"], ["Harvest N (g)", 3, "Harvest (g)"], ["Harvest g/m2", 30, "Harvest (g)"], ["Harvest dry (g)", 12, "Harvest (g)"], ["Harvest bucket tare (g)", 300, "Harvest (g)"], ["Harvest expected (g)", 200, "Harvest (g)"],
    ["Feed", 3, "Feed (portions)"], ["Feed (g) per fish", 3, "Feed (g)"], ["Feed protein (g)", 1, "Feed (g)"], ["Water change", 20, "Water change (%)"], ["Water change (gal)", 10, "Water change (US gal)"], ["Water change (%/week)", 10, "Water change (%)"], ["Temp", 25, "Temperature (C)"],
    ["Target NO3 (mg/L)", 5, "NO3 (mg/L)"], ["NO3 in tap water (mg/L)", 5, "NO3 (mg/L)"], ["NO3 before WC (mg/L)", 9, "NO3 (mg/L)"], ["NO3 tank 2 (mg/L)", 9, "NO3 (mg/L)"], ["Air temp (°C)", 21, "Temperature (C)"], ["pH max", 8.3, "pH"], ["Light (lux)", 9000, "Light (umol m-2 s-1)"], ["Dimming (%)", 50, "Light level (%)"],
  ])("%s with %d: asked, and %s is among the choices", (heading, figure, wanted) => {
    const proposed = column(heading, figure);
    expect(proposed).toMatchObject({ sureness: "ask", meaning: null });
    expect(proposed.choices).toContain(wanted);
  });
  test.each(["KH", "KNO3 (mg/L)", "silicate (mg/L)", "NOx-N (mg/L)", "Salinity SG", "Days since harvest", "Protein %", "N:P"])("%s is left alone", (heading) => expect(column(heading, 1.02)).toMatchObject({ meaning: null, kind: "leftAlone" }));
});

describe("what the sheet says beside the heading", () => {
  test("a likelier unit comes first among the choices", () => {
    expect(column("Harvest", 0.2).choices[0]).toBe("Harvest (kg)");
    expect(column("Harvest", 200).choices[0]).toBe("Harvest (g)");
    expect(column("PO4", 45).choices[0]).toBe("PO4 (ug/L)");
    expect(column("PO4", 0.08).choices[0]).toBe("PO4 (mg/L)");
  });
  test("the reason names the factor between the two ways of counting", () => {
    expect(column("Nitrate (mg/L)", 10).why).toContain("NO3 or NO3-N, which are 4.43 times apart");
    expect(column("Phosphate (mg/L)", 0.1).why).toContain("PO4 or PO4-P, which are 3.07 times apart");
  });
  test("a column of the keeper's own foods is the food, whatever its heading", () => {
    expect(column("Was", "Hausmischung", { foods: ["Hausmischung"] })).toMatchObject({ meaning: "Food", sureness: "likely" });
    expect(column("Was", "Hausmischung")).toMatchObject({ meaning: null, kind: "leftAlone" });
  });
  test("an amount behind the food's name is the feed, and an amount alone is asked for", () => {
    const grid = [["Datum", "Futter", "Menge (g)"], ...Array.from({ length: 8 }, (_, day) => [46000 + day, "Cod", 3])];
    const found = findLog(grid, { row: 0, column: 0 });
    expect("reason" in found ? [] : proposeColumns(grid, found).map(({ meaning, sureness }) => [meaning, sureness])).toEqual([["Date", "sure"], ["Food", "sure"], ["Feed (g)", "likely"]]);
    expect(column("Menge (g)", 3)).toMatchObject({ sureness: "ask", choices: ["Feed (g)", "Harvest (g)", "Fed back (g)"] });
  });
  test("a column that only holds marks is left alone", () => expect(column("Harvested", "x")).toMatchObject({ meaning: null, kind: "leftAlone" }));
});
