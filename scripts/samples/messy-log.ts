import { FOODS_HEADINGS } from "../../src/functions/foods-range";
import { balanceSheet, endsWithHarvest, foodsSheet, periodCount, putDown, readMe } from "./common";
import { live } from "./invented-tank";
import { LOOK, put, putHeadings, putRow, sketch, type Sketch } from "./sketch";

const DAYS = 56;
const FIRST_ROW = 5;

/** An invented keeper's own diary: odd headings, readings as text, gaps, units that change half-way. */
export function messyLog(): Sketch[] {
  const days = live({
    seed: 23, days: DAYS, firstSerial: 46082, volumeL: 120,
    foods: [
      { name: "mysis cubes", nPerG: 0.0192, pPerG: 0.002, gPerDay: 1.2, step: 0.1 },
      { name: "prawn bits", nPerG: 0.0218, pPerG: 0.00244, gPerDay: 1.1, step: 0.1 },
    ],
    screens: [{ name: "", litAreaM2: 0.09, growth: 5.5, startDay: 0, everyDays: 12, halfLitDays: 5 }],
    dryFraction: 0.08, tissueN: 0.035, tissueP: 0.0035, startNo3MgPerL: 6, startPo4MgPerL: 0.12, otherSinkShare: 0.2,
    changeEveryDays: 14, changeL: 20, testEveryDays: 5,
  });

  const diary = sketch("My diary", [12, 15, 12, 12, 12, 14, 24, 18, 36], 4);
  put(diary, 1, 1, "120 litre, back room (invented example)", LOOK.title);
  put(diary, 1, 3, "feeding", LOOK.note);
  put(diary, 4, 3, "tests", LOOK.note);
  put(diary, 7, 3, "work", LOOK.note);
  putHeadings(diary, 4, ["When", "fed", "cubes", "NO3", "PO4", "PO4 is in", "green stuff off the mesh, wet g", "buckets out (10 L)", "remarks"]);
  let row = FIRST_ROW;
  let cubesOf = 0;
  days.forEach((day, place) => {
    // Days on which nothing was written down; a line with the month's name; an empty line.
    if (place % 13 === 6) return;
    if (place === 20) {
      put(diary, 1, row, "MARCH", LOOK.title);
      row += 1;
    }
    if (place === 34) row += 1;
    cubesOf += day.feedG;
    const cubes = place % 2 === 0 ? Math.max(0.5, Math.round(cubesOf / 1.5) / 2) : null;
    if (cubes !== null) cubesOf = 0;
    const when = place === 15 ? "2026-03-16" : place === 16 ? "17.3.2026" : day.serial;
    putRow(
      diary,
      row,
      [when, cubes === null ? null : place % 4 === 0 ? "mysis cubes" : "prawn bits", cubes, day.no3 === null ? null : asTyped(day.no3, place), day.po4 === null ? null : place < 30 ? comma(day.po4, 2) : Math.round(day.po4 * 326.1), day.po4 === null ? null : place < 30 ? "mg/L PO4" : "ug/L P", day.harvestG[0] ?? null, day.changeL ? day.changeL / 10 : null, remark(place)],
      [LOOK.date],
    );
    row += 1;
  });
  const last = row - 1;

  const tidy = sketch("Understood", [12, 15, 15, 12, 14, 12, 18, 14, 14], 1);
  putHeadings(tidy, 1, ["Date", "Food", "Feed (portions)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)", "NO3 low", "NO3 high"]);
  for (let line = FIRST_ROW; line <= last; line += 1) {
    const to = line - FIRST_ROW + 2;
    const from = (column: string): string => `'My diary'!${column}${line}`;
    const taken = (column: string): string => `IF(${from(column)}="","",${from(column)})`;
    const formulas = [
      `IF(COUNTA('My diary'!B${line}:I${line})=0,"",${from("A")})`,
      taken("B"),
      taken("C"),
      taken("D"),
      `IF(${from("E")}="","",ALGAL.ION_CONVERT(ALGAL.READING_VALUE(${from("E")}),${from("F")},"mg/L PO4"))`,
      taken("G"),
      `IF(${from("H")}="","",10*${from("H")})`,
    ];
    formulas.forEach((formula, place) => put(tidy, place + 1, to, { formula }, place === 0 ? LOOK.date : place === 4 ? { numberFormat: "0.000" } : undefined));
  }
  const end = last - FIRST_ROW + 2;
  putDown(tidy, 8, 2, end, "IF(D{row}=\"\",\"\",ALGAL.READING_LOW(D{row},'Set-up'!$B$3))", { numberFormat: "0.0" });
  putDown(tidy, 9, 2, end, "IF(D{row}=\"\",\"\",ALGAL.READING_HIGH(D{row},'Set-up'!$B$3))", { numberFormat: "0.0" });

  const setUp = sketch("Set-up", [24, 18, 60]);
  putHeadings(setUp, 1, ["What", "Value", "Why"]);
  const rows: [string, string | number, string][] = [
    ["Volume (L)", 120, "Guessed from the label of the tank, less the sand"],
    ["NO3 kit steps", "0 1 2 5 10 25", "Colour chart"],
    ["Volume error", 0.1, "Only a guess"],
    ["Lit area (m2)", 0.09, "15 x 30 cm, both sides"],
  ];
  rows.forEach(([what, value, why], place) => putRow(setUp, place + 2, [what, value, why], [undefined, undefined, LOOK.note]));

  return [
    balanceSheet("Nitrogen", "N", `ALGAL.BUDGET_N(Understood!$A$1:$G$${end},'Set-up'!$A$2:$B$5,"harvest",Foods!$A$1:$E$4)`, periodCount(days), endsWithHarvest(days)),
    balanceSheet("Phosphorus", "P", `ALGAL.BUDGET_P(Understood!$A$1:$G$${end},'Set-up'!$A$2:$B$5,"harvest",Foods!$A$1:$E$4)`, periodCount(days), endsWithHarvest(days)),
    diary,
    tidy,
    setUp,
    foodsSheet([["mysis cubes", 12, 200, 6.25, 3], ["prawn bits", 13.61, 244, 6.25, 3], ["green sheet", 36, 360, 6.25, 2.5]], Object.values(FOODS_HEADINGS)),
    readMe("A keeper's own diary, as it is (invented)", [
      "Invented example: no tank, keeper or reading in this workbook is real.",
      "My diary is left as the keeper wrote it: odd headings, readings such as <1 and ~5, commas, gaps, and a phosphate unit that changes half-way.",
      "Understood repeats it in columns that the budget can read. Cells that cannot be understood stay as they are.",
      "To see what happens to a reading that cannot be understood, write 5 ppm over one of them: its low and high show #VALUE!, the reason is in the pane under Problems, and the period in which it lies gets no figures.",
    ]),
  ];
}

/** How this keeper writes a nitrate reading: the patch, sometimes as text, with a sign or as a range. */
function asTyped(value: number, place: number): string | number {
  if (value < 1.5) return place % 2 === 0 ? "<2" : "nd";
  const patch = [1, 2, 5, 10, 25].reduce((best, one) => (Math.abs(one - value) < Math.abs(best - value) ? one : best), 1);
  if (place % 15 === 5) return `~${patch}`;
  if (place % 15 === 10 && patch === 5) return "2-5";
  return place % 10 === 0 ? patch : String(patch);
}

const comma = (value: number, decimals: number): string => Math.max(0.01, value).toFixed(decimals).replace(".", ",");

function remark(place: number): string {
  return place === 0 ? "mesh up and running, lamp 6 h" : place === 5 ? "lamp 12 h now" : place === 27 ? "away for a day" : place === 40 ? "new test kit" : "";
}
