import { FOODS_HEADINGS } from "../../src/functions/foods-range";
import { balanceSheet, endsWithHarvest, foodsSheet, periodCount, putDown, readMe } from "./common";
import { live, onMeter, type InventedDay, type InventedTank } from "./invented-tank";
import { LOOK, put, putHeadings, putRow, sketch, type Sketch } from "./sketch";

const DAYS = 77;
const FIRST = 46147;
const PELLETS = { name: "Pond pellets, 30 % protein", nPerG: 0.048, pPerG: 0.009 };

const mill: InventedTank = {
  seed: 5, days: DAYS, firstSerial: FIRST, volumeL: 12_400,
  foods: [{ ...PELLETS, gPerDay: 62, step: 1 }],
  screens: [
    { name: "north", litAreaM2: 1.6, growth: 17, startDay: 0, everyDays: 8, halfLitDays: 0 },
    { name: "south", litAreaM2: 1.6, growth: 17, startDay: 10, everyDays: 8, halfLitDays: 14 },
  ],
  dryFraction: 0.075, tissueN: 0.042, tissueP: 0.006, startNo3MgPerL: 22, startPo4MgPerL: 0.9, otherSinkShare: 0.12,
  changeEveryDays: 35, changeL: 1200, testEveryDays: 7,
};
const heron: InventedTank = {
  seed: 6, days: DAYS, firstSerial: FIRST, volumeL: 5_100,
  foods: [{ ...PELLETS, gPerDay: 15, step: 1 }],
  screens: [{ name: "weir", litAreaM2: 0.9, growth: 14, startDay: 0, everyDays: 10, halfLitDays: 0 }],
  dryFraction: 0.075, tissueN: 0.038, tissueP: 0.005, startNo3MgPerL: 12, startPo4MgPerL: 0.5, otherSinkShare: 0.1,
  changeEveryDays: 42, changeL: 400, testEveryDays: 7,
};

/** Two invented ponds of one allotment club: two screens on the larger, one of them started half-lit, one on the smaller. */
export function twoPonds(): Sketch[] {
  const [millDays, heronDays] = [live(mill), live(heron)];
  const last = DAYS + 2;
  return [
    balanceSheet("Mill nitrogen", "N", `ALGAL.BUDGET_N('Mill log'!$A$1:$H$${last},'Mill set-up'!$A$2:$B$12,"harvest",Foods!$A$1:$E$3)`, periodCount(millDays), endsWithHarvest(millDays), "Nitrogen of Mill pond"),
    balanceSheet("Mill phosphorus", "P", `ALGAL.BUDGET_P('Mill log'!$A$1:$H$${last},'Mill set-up'!$A$2:$B$12,"harvest",Foods!$A$1:$E$3)`, periodCount(millDays), endsWithHarvest(millDays), "Phosphorus of Mill pond"),
    balanceSheet("Heron nitrogen", "N", `ALGAL.BUDGET_N('Heron log'!$A$1:$G$${last},'Heron set-up'!$A$2:$B$9,"harvest",Foods!$A$1:$E$3)`, periodCount(heronDays), endsWithHarvest(heronDays), "Nitrogen of Heron pond"),
    balanceSheet("Heron phosphorus", "P", `ALGAL.BUDGET_P('Heron log'!$A$1:$G$${last},'Heron set-up'!$A$2:$B$9,"harvest",Foods!$A$1:$E$3)`, periodCount(heronDays), endsWithHarvest(heronDays), "Phosphorus of Heron pond"),
    screensSheet(millDays, heronDays),
    logSheet("Mill log", mill, millDays, "South screen started, 7 h of light", (no3) => onMeter(no3, 1)),
    setUpSheet("Mill set-up", [
      ["Volume (L)", 12_400, "Measured with a water meter when it was filled"],
      ["Volume error", 0.04, "Levels vary with rain"],
      ["Lit area north (m2)", 1.6, "One side, by daylight and a lamp"],
      ["Lit area south (m2)", 1.6, "The same sheet"],
      ["Started south", FIRST + 10, "Ten days after the north screen, at half the hours of light for two weeks"],
      ["Dry fraction", 0.075, "Three samples dried in June: 7.1, 7.5 and 7.9 %"],
      ["Tissue N", 0.042, "One sample sent to a laboratory (invented)"],
      ["Tissue P", 0.006, "The same sample"],
      ["NO3 kit steps", 1, "Photometer, step 1"],
      ["PO4 kit steps", 0.05, "Meter, step 0.05"],
      ["New water NO3 (mg/L)", 6, "Tap water, the supplier's yearly report"],
    ]),
    logSheet("Heron log", heron, heronDays, "", (no3) => onMeter(no3, 2)),
    setUpSheet("Heron set-up", [
      ["Volume (L)", 5_100, "Length x width x mean depth"],
      ["Volume error", 0.1, "The bottom is uneven"],
      ["Lit area weir (m2)", 0.9, "Daylight only"],
      ["Dry fraction", 0.075, "As for Mill pond"],
      ["NO3 kit steps", 2, "An older photometer, step 2"],
      ["PO4 kit steps", 0.05, "Meter, step 0.05"],
      ["New water NO3 (mg/L)", 6, "Tap water, the supplier's yearly report"],
      ["Retained", 0.1, "Young fish, still growing"],
    ]),
    foodsSheet([["Mealworm, dried", 52, 700, 6.25, 5]], Object.values(FOODS_HEADINGS)),
    readMe("Two invented garden ponds with three screens, 11 weeks", [
      "Invented example: no pond, club or reading in this workbook is real.",
      "Mill pond has the screens north and south; south was started ten days later and for two weeks at half light. Heron pond has one screen, weir.",
      "Screens compares the growth of the three on the same footing: grams dry per square metre and day, and per mol of light.",
      "The first harvest of a screen is a start-up: do not judge by it.",
    ]),
  ];
}

function logSheet(name: string, tank: InventedTank, days: readonly InventedDay[], startNote: string, readNo3: (mgPerL: number) => number): Sketch {
  const screens = tank.screens.map((screen) => `Harvest ${screen.name} (g)`);
  const sheet = sketch(name, [11, 26, 9, 12, 12, ...screens.map(() => 15), 15, 34], 1);
  putHeadings(sheet, 1, ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", ...screens, "Water change (L)", "Notes"]);
  days.forEach((day, place) => {
    const note = place === 10 && startNote ? startNote : place === 24 && startNote ? "South screen up to 14 h" : day.changeL ? "Water change" : "";
    putRow(
      sheet,
      place + 2,
      [day.serial, day.food, day.feedG, day.no3 === null ? null : readNo3(day.no3), day.po4 === null ? null : onMeter(day.po4, 0.05), ...day.harvestG, day.changeL, note],
      [LOOK.date],
    );
  });
  return sheet;
}

function setUpSheet(name: string, rows: [string, string | number, string][]): Sketch {
  const sheet = sketch(name, [24, 18, 60]);
  putHeadings(sheet, 1, ["What", "Value", "Why"]);
  rows.forEach(([what, value, why], place) => putRow(sheet, place + 2, [what, value, why], [undefined, what.startsWith("Started") ? LOOK.date : undefined, LOOK.note]));
  return sheet;
}

function screensSheet(millDays: readonly InventedDay[], heronDays: readonly InventedDay[]): Sketch {
  const sheet = sketch("Screens", [11, 10, 14, 12, 10, 12, 10, 18, 18, 16], 3);
  put(sheet, 1, 1, "The three screens on the same footing", LOOK.title);
  put(sheet, 1, 2, "First harvests are start-up growth. Growth above 40 g dry a square metre and day would be a wrong weight or unit.", LOOK.note);
  putHeadings(sheet, 3, ["Date", "Screen", "Drained (g)", "Area (m2)", "Days", "Light (h)", "Light (umol m-2 s-1)", "Growth (g dry m-2 d-1)", "Light sum (mol m-2 d-1)", "Yield (g dry/mol)"]);
  let row = 4;
  const list = (tank: InventedTank, days: readonly InventedDay[]): void =>
    tank.screens.forEach((screen, place) => {
      let before = tank.firstSerial + screen.startDay;
      for (const day of days) {
        const drained = day.harvestG[place] ?? null;
        if (drained === null) continue;
        const half = screen.halfLitDays > 0 && day.serial - tank.firstSerial - screen.startDay <= screen.halfLitDays;
        putRow(sheet, row, [day.serial, screen.name, drained, screen.litAreaM2, day.serial - before, half ? 7 : 14, 650], [LOOK.date]);
        before = day.serial;
        row += 1;
      }
    });
  list(mill, millDays);
  list(heron, heronDays);
  const end = row - 1;
  putDown(sheet, 8, 4, end, "ALGAL.HARVEST_GROWTH(C{row},D{row},E{row},0.075)", { numberFormat: "0.0" });
  putDown(sheet, 9, 4, end, "ALGAL.LIGHT_DAILY(G{row},F{row})", { numberFormat: "0.0" });
  putDown(sheet, 10, 4, end, "H{row}/I{row}", LOOK.grams);
  return sheet;
}
