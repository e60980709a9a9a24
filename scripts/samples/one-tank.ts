import { FOODS_HEADINGS } from "../../src/functions/foods-range";
import { live, onMeter } from "./invented-tank";
import { balanceSheet, endsWithHarvest, foodsSheet, periodCount, putAcross, putDown, readMe } from "./common";
import { LOOK, put, putHeadings, putRow, sketch, type Sketch } from "./sketch";

const NO3_STEP = 0.5;
const DAYS = 112;

/** Sixteen weeks of one invented rock-pool tank with one screen. */
export function oneTank(): Sketch[] {
  const days = live({
    seed: 11, days: DAYS, firstSerial: 46056, volumeL: 265,
    foods: [
      { name: "Mysids, frozen", nPerG: 0.0192, pPerG: 0.002, gPerDay: 2.6, step: 0.1 },
      { name: "Mussel", nPerG: 0.01904, pPerG: 0.00197, gPerDay: 2.8, step: 0.1 },
      { name: "Mysids, frozen", nPerG: 0.0192, pPerG: 0.002, gPerDay: 2.4, step: 0.1 },
    ],
    screens: [{ name: "", litAreaM2: 0.2, growth: 6.2, startDay: 0, everyDays: 11, halfLitDays: 7 }],
    dryFraction: 0.085, tissueN: 0.034, tissueP: 0.0034, startNo3MgPerL: 17, startPo4MgPerL: 0.3, otherSinkShare: 0.08,
    changeEveryDays: 28, changeL: 26, testEveryDays: 7,
  });

  const log = sketch("Log", [11, 16, 9, 12, 12, 11, 12, 14, 9, 34, 11, 11, 11], 1);
  putHeadings(log, 1, ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Fed back (g)", "Water change (L)", "Light (h)", "Notes", "Feed N (g)", "NO3 low (mg/L)", "NO3 high (mg/L)"]);
  days.forEach((day, place) => {
    const harvest = day.harvestG[0] ?? null;
    const note =
      place === 0 ? "Screen hung in, 7 h of light for the first week" : place === 7 ? "Light up to 14 h" : harvest !== null && place < 20 ? "First harvest, brown film and short green tufts" : day.changeL ? "Water change" : "";
    putRow(
      log,
      place + 2,
      [day.serial, day.food, day.feedG, day.no3 === null ? null : onMeter(day.no3, NO3_STEP), day.po4 === null ? null : onMeter(day.po4, 0.01), harvest, harvest !== null && place > 60 && place < 75 ? 20 : null, day.changeL, place < 7 ? 7 : 14, note],
      [LOOK.date],
    );
  });
  const last = DAYS + 2;
  putDown(log, 11, 2, last, 'ALGAL.FEEDLOAD_N(C{row},B{row},"g",Foods!$A$1:$E$6)', LOOK.milligrams);
  putDown(log, 12, 2, last, "IF(D{row}=\"\",\"\",ALGAL.READING_LOW(D{row},'Set-up'!$B$5))", LOOK.grams);
  putDown(log, 13, 2, last, "IF(D{row}=\"\",\"\",ALGAL.READING_HIGH(D{row},'Set-up'!$B$5))", LOOK.grams);

  const setUp = sketch("Set-up", [24, 18, 70]);
  putHeadings(setUp, 1, ["What", "Value", "Why"]);
  const rows: [string, string | number | { formula: string }, string][] = [
    ["Volume (L)", { formula: "ALGAL.NET_VOLUME(300,70,27)" }, "300 L inside up to the water line, 70 kg of rock, 27 kg of sand"],
    ["Lit area (m2)", 0.2, "A sheet of 25 x 40 cm, lit on both sides"],
    ["Dry fraction", 0.085, "One sample of 50 g dried on a window sill and then at 70 degrees C: 4.3 g"],
    ["NO3 kit steps", NO3_STEP, "A photometer with a step of 0.5"],
    ["PO4 kit steps", 0.01, "A meter with a step of 0.01"],
    ["New water NO3 (mg/L)", 0, "Mixed from purified water"],
    ["Retained", 0.05, "Grown animals, none added or taken out"],
    ["Light (umol m-2 s-1)", { formula: "ALGAL.LIGHT_FROM_WATTS(38,B3)" }, "Lamps of 38 W together, half of them on each side"],
    ["Light hours", 14, "Timer, since the second week"],
  ];
  rows.forEach(([what, value, why], place) => putRow(setUp, place + 2, [what, value, why], [undefined, typeof value === "object" ? { numberFormat: "0" } : undefined, LOOK.note]));

  const logRange = `Log!$A$1:$H$${last}`;
  const screen = sketch("Screen", [48, 16, 16, 16, 44]);
  put(screen, 1, 1, "Does the screen carry its load?", LOOK.title);
  putHeadings(screen, 3, ["What", "Value", "", "", "How"]);
  putRow(screen, 4, ["Feed load N (g a day)", { formula: `SUM(Log!K2:K${last})/${DAYS + 1}` }, "", "", "Mean of the log"], [undefined, LOOK.milligrams]);
  putRow(screen, 5, ["Feed load P (g a day)", { formula: `SUM(ALGAL.FEEDLOAD_P(Log!C2:C${last},Log!B2:B${last},"g",Foods!A1:E6))/${DAYS + 1}` }, "", "", "Mean of the log"], [undefined, LOOK.milligrams]);
  putRow(screen, 6, ["Light on the screen (umol m-2 s-1)", { formula: "ALGAL.LIGHT_FROM_WATTS(38,'Set-up'!B3)" }, "", "", "Lamps of 38 W together"], [undefined, { numberFormat: "0" }]);
  putRow(screen, 7, ["Light sum (mol m-2 d-1)", { formula: "ALGAL.LIGHT_DAILY(B6,14)" }, "", "", "14 hours a day"], [undefined, { numberFormat: "0.0" }]);
  put(screen, 1, 8, "Area needed (m2): low, middle, high", LOOK.answer);
  putAcross(screen, 2, 8, 4, "ALGAL.SCRUBAREA_NEEDED($B$4,$B$5,$B$7,10,0.3)", [LOOK.grams, LOOK.grams, LOOK.grams]);
  putRow(screen, 9, ["Area there is (m2)", { formula: "'Set-up'!B3" }], [LOOK.answer, LOOK.grams]);
  putRow(screen, 10, ["Area by common practice (m2): low, high", "", "", "", "A habit of the trade, no source"]);
  putAcross(screen, 2, 10, 2, "ALGAL.SCRUBAREA_HABIT(2.6)", [LOOK.milligrams, LOOK.milligrams]);
  putRow(screen, 11, ["Nitrogen the screen can take up (g a day)", { formula: "ALGAL.SCRUB_CAPACITY_N(B9,B7,10,0.3)" }], [undefined, LOOK.milligrams]);
  putRow(screen, 12, ["Growth, last harvest (g dry m-2 d-1)", { formula: `ALGAL.HARVEST_GROWTH(LOOKUP(2,1/(Log!F2:F${last}>0),Log!F2:F${last}),B9,11,'Set-up'!B4)` }], [undefined, { numberFormat: "0.0" }]);
  putRow(screen, 13, ["Food whose N that harvest carried (g of mussel)", { formula: `ALGAL.HARVEST_FEED_EQUIVALENT(LOOKUP(2,1/(Log!F2:F${last}>0),Log!F2:F${last}),"Mussel","N",'Set-up'!B4)` }], [undefined, { numberFormat: "0" }]);

  return [
    balanceSheet("Nitrogen", "N", `ALGAL.BUDGET_N(${logRange},'Set-up'!$A$2:$B$10,"harvest",Foods!$A$1:$E$6)`, periodCount(days), endsWithHarvest(days)),
    balanceSheet("Phosphorus", "P", `ALGAL.BUDGET_P(${logRange},'Set-up'!$A$2:$B$10,"harvest",Foods!$A$1:$E$6)`, periodCount(days), endsWithHarvest(days)),
    log,
    setUp,
    foodsSheet([["Rock-pool mix, frozen", 14, 230, 6.25, 3]], Object.values(FOODS_HEADINGS)),
    screen,
    readMe("An invented rock-pool tank, 16 weeks", [
      "Invented example: no tank, keeper or reading in this workbook is real.",
      "Start on the sheets Nitrogen and Phosphorus: each row is the time from one harvest to the next, and its verdict.",
      "Log is what the keeper writes: a row a day. Columns K to M are calculated from it.",
      "Set-up holds what does not change from day to day. Foods adds foods of your own to the built-in table.",
      "Screen asks whether the lit area carries the load.",
    ]),
  ];
}
