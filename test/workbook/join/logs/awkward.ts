import { about, alone, ask, comma, DATE, days, every, FIRST, is, textDays, type InventedLog } from "./invented";

/** Invented logs that were written to be hard to read. */
const besideSetUp: InventedLog = {
  name: "beside a set-up block and a second log, with blank rows between months", language: "English", awkward: true, selected: { row: 30, column: 1 },
  grid: (() => {
    const rows: unknown[][] = [["Log", "", "", "", "", "Set-up", ""], [], ["Date", "Feed (g)", "NO3 (mg/L)", "Harvest (g)", "", "Volume (L)", 200], ...days(15, (day) => [3, every(day, 5, 10), every(day, 7, 200)])];
    rows[3]?.push("", "NO3 kit steps", "0 5 10 20");
    rows.push([], ["January 2026", "", "", ""], ...Array.from({ length: 16 }, (_, day) => [FIRST + 20 + day, 3, every(day, 5, 12), every(day, 7, 210)]));
    rows.push([], [], [], [], [], [], ["Date", "Feed (kg)", "NO3-N (mg/L)", "Harvest (kg)"], ...days(10, (day) => [0.4, every(day, 5, 2), every(day, 5, 1.2)]));
    return rows;
  })(),
  at: { top: 2, left: 0, bottom: 35, right: 3, first: 3, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("harvest", "Harvest (g)")],
};

const twoFigures: InventedLog = {
  name: "dates in text of which no day is above 12", language: "English", awkward: true, selected: { row: 1, column: 1 },
  grid: [["Date", "Fed (g)", "NO3 (mg/L)", "Harvest (g)"], ...Array.from({ length: 10 }, (_, day) => [`${day + 1}/4/2026`, about(3, day), every(day, 3, 10), every(day, 5, 180)])],
  at: { top: 0, left: 0, bottom: 10, right: 3, first: 1, units: null },
  columns: [{ kind: "date", meaning: "Date", ask: true }, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("harvest", "Harvest (g)")],
};

const halfTurned: InventedLog = {
  name: "dates that the sheet has turned for the first twelve days of a month", language: "English", awkward: true, selected: { row: 20, column: 1 },
  grid: [["Date", "Feed (g)", "NO3 (mg/L)"], ...Array.from({ length: 28 }, (_, day) => [day < 12 ? 46026 + 30 * day : `${day + 1}/1/2026`, about(3, day), every(day, 7, 10)])],
  at: { top: 0, left: 0, bottom: 28, right: 2, first: 1, units: null },
  columns: [{ kind: "date", meaning: "Date", ask: true }, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)")],
};

const wrongUnit: InventedLog = {
  name: "with units that the figures belie", language: "English", awkward: true, selected: { row: 5, column: 5 },
  grid: [["Date", "Feed (kg)", "PO4 (mg/L)", "Harvest (kg)", "Temp (C)", "Water change (%)"], ...days(14, (day) => [about(260, day), every(day, 7, 45), every(day, 7, 210), about(78, day, 0), every(day, 7, 120)])],
  at: { top: 0, left: 0, bottom: 14, right: 5, first: 1, units: null },
  columns: [DATE, ask("feed", "Feed (g)"), ask("phosphate", "PO4 (ug/L)"), ask("harvest", "Harvest (g)"), ask("temperature", "Temperature (F)"), ask("change", "Water change (L)")],
};

const disagree: InventedLog = {
  name: "in which heading and row of units disagree", language: "German", awkward: true, selected: { row: 4, column: 2 },
  grid: [["Datum", "Futter (g)", "NO3-N", "Phosphat PO4", "Ernte (g)", "Wasserwechsel"], ["", "kg", "mg/l NO3", "µg/l P", "g", "l"], ...days(12, (day) => [about(8, day), every(day, 4, 10), every(day, 4, 40), every(day, 6, 200), every(day, 6, 25)])],
  at: { top: 0, left: 0, bottom: 13, right: 5, first: 2, units: 1 },
  columns: [DATE, ask("feed", "Feed (g)"), ask("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4-P (ug/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)")],
};

const twoKits: InventedLog = {
  name: "with two kits for one test, ammonia left open and a bare N", language: "English", awkward: true, selected: { row: 2, column: 2 },
  grid: [["Date", "NO3 chart (mg/L)", "NO3 meter (mg/L)", "Total ammonia (mg/L)", "P (ug/L)", "NH3/NH4", "Harvest dry weight (g)"], ...days(12, (day) => [every(day, 4, 10), every(day, 4, 11.3), every(day, 4, 0.1), every(day, 4, 40), "", every(day, 6, 14)])],
  at: { top: 0, left: 0, bottom: 12, right: 6, first: 1, units: null },
  columns: [DATE, is("nitrate", "NO3 (mg/L)"), ask("nitrate", "NO3 (mg/L)"), ask("ammonia", "NH4 (mg/L)"), ask("phosphate", "PO4-P (ug/L)"), ask("ammonia", "NH4 (mg/L)"), ask("harvest", "Harvest (g)")],
};

const spaced: InventedLog = {
  name: "with empty spacer columns and a weekday before the date", language: "English", awkward: true, selected: { row: 3, column: 8 },
  grid: [["", "Day", "Date", "Feed (g)", "", "NO3 (mg/L)", "PO4 (mg/L)", "", "Harvest (g)", "Cost"],
    ...days(14, (day) => [about(3, day), "", every(day, 1, 10), every(day, 1, 0.1), "", every(day, 1, 20), 0.4]).map((row, day) => ["", ["Tue", "Wed", "Thu", "Fri", "Sat", "Sun", "Mon"][day % 7], ...row])],
  at: { top: 0, left: 1, bottom: 14, right: 9, first: 1, units: null },
  columns: [alone, DATE, is("feed", "Feed (g)"), alone, is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), alone, is("harvest", "Harvest (g)"), alone],
};

const signs: InventedLog = {
  name: "full of signs, dashes, ranges and small figures", language: "German", awkward: true, selected: { row: 1, column: 0 },
  grid: [["Datum/Zeit", "NO₃⁻ [mg·L⁻¹]", "PO₄³⁻ [mg/l]", "Futter ~ (g)", "Ernte* (g)", "WW (Liter)", "Fische?"],
    ...textDays(12, (date) => `${date.getUTCDate()}.${date.getUTCMonth() + 1}.${date.getUTCFullYear()} 18:30`, (day) => [["<1", "5-10", "n.n.", "~10"][day % 4], ["0,02-0,05", "-", "<0,02"][day % 3], comma(about(4, day)), day % 4 ? "-" : "180", day % 4 ? "–" : "20", "ok"])],
  at: { top: 0, left: 0, bottom: 12, right: 6, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("feed", "Feed (g)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), alone],
};

const oddUnits: InventedLog = {
  name: "in cubes, gallons, cups and pinches", language: "English", awkward: true, selected: { row: 2, column: 1 },
  grid: [["When", "Feed (cubes)", "Water change (gal)", "Harvest (cups)", "Flake food (pinch)", "Top off (mL)", "SG", "Dimmed (%)"], ...days(14, (day) => [2, every(day, 7, 10), every(day, 7, 1.5), 1, about(900, day, 0), 1.025, 50])],
  at: { top: 0, left: 0, bottom: 14, right: 7, first: 1, units: null },
  columns: [DATE, ask("feed", "Feed (portions)"), ask("change", "Water change (US gal)"), ask("harvest", "Harvest (g)"), ask("feed", "Feed Flake (portions)"), is("topUp", "Top-up (mL)"), alone, ask("lightLevel", "Light level (%)")],
};

const formulas: InventedLog = (() => {
  const grid = [["Date", "Bowl full (g)", "Bowl empty (g)", "Harvest (g)", "NO3 read", "NO3-N (mg/L)", "Feed total (g)"], ...days(10, (day) => [420 + day, 220, 200 + day, 10, 2.26, 6])];
  const written = grid.map((row, at) => (at === 0 ? row : [at === 1 ? row[0] : `=A${at}+1`, row[1], row[2], `=B${at + 1}-C${at + 1}`, row[4], `=E${at + 1}*0.226`, row[6]]));
  return {
    name: "in which formulas reckon the figures", language: "English", awkward: true, selected: { row: 1, column: 1 }, grid, formulas: written,
    at: { top: 0, left: 0, bottom: 10, right: 6, first: 1, units: null },
    columns: [DATE, alone, alone, ask("harvest", "Harvest (g)"), ask("nitrate", "NO3 (mg/L)"), ask("nitrate", "NO3-N (mg/L)"), ask("feed", "Feed (g)")],
  };
})();

const frenchAwkward: InventedLog = {
  name: "titre fusionné, groupes, dates en lettres et lignes d'unités", language: "French", awkward: true, selected: { row: 8, column: 6 },
  grid: [["Aquarium récifal : suivi des nutriments et du filtre à algues", "", "", "", "", "", ""], ["Date", "Nourrissage", "", "Tests", "", "Filtre", ""], ["", "type", "quantité", "nitrates", "PO4", "récolte", "chgt d'eau"], ["", "", "(g)", "(mg/l)", "(mg/l)", "(g)", "(%)"],
    ...textDays(12, (date) => `${date.getUTCDate()} ${["janv.", "févr.", "mars", "avr.", "mai", "juin", "juil.", "août", "sept.", "oct.", "nov.", "déc."][date.getUTCMonth()] ?? ""} ${date.getUTCFullYear()}`, (day) => ["Artemia", "3,5", every(day, 4, "10"), every(day, 4, "0,05"), every(day, 6, "175"), every(day, 6, 10)]), ["Total", "", "42", "", "", "350", ""]],
  at: { top: 1, left: 0, bottom: 15, right: 6, first: 4, units: 3 },
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), ask("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (%)")],
};

const noHeadings: InventedLog = {
  name: "without any heading", language: "English", awkward: true, selected: { row: 3, column: 1 },
  grid: days(12, (day) => ["Mussel", about(3, day), every(day, 4, 10)]),
  at: { top: 0, left: 0, bottom: 11, right: 3, first: 0, units: null },
  columns: [DATE, is("food", "Food"), ask("leftAlone", "Feed (g)"), ask("leftAlone", "NO3 (mg/L)")],
};

const slips: InventedLog = {
  name: "mit Tippfehlern und Abkürzungen", language: "German", awkward: true, selected: { row: 2, column: 2 },
  grid: [["Dat.", "Fut. g", "Nitart mg/l NO3", "Posphat (mg/l PO4)", "Ernt (g)", "Wasserw. (l)", "Temp. °C", "ph"], ...days(12, (day) => [about(3, day), every(day, 4, 10), every(day, 4, 0.1), every(day, 6, 200), every(day, 6, 30), about(25, day), about(8, day)])],
  at: { top: 0, left: 0, bottom: 12, right: 7, first: 1, units: null },
  columns: [DATE, ask("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), ask("harvest", "Harvest (g)"), ask("change", "Water change (L)"), is("temperature", "Temperature (C)"), is("ph", "pH")],
};

export const AWKWARD: readonly InventedLog[] = [besideSetUp, twoFigures, halfTurned, wrongUnit, disagree, twoKits, spaced, signs, oddUnits, formulas, frenchAwkward, noHeadings, slips];
