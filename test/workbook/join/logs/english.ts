import { about, alone, ask, DATE, days, every, is, textDays, two, type InventedLog } from "./invented";

/** Invented logs in English. */
const ourHeadings: InventedLog = {
  name: "under our own headings", language: "English", awkward: false, selected: { row: 0, column: 0 },
  grid: [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Fed back (g)", "Water change (L)", "pH", "Temperature (C)", "Notes"],
    ...days(20, (day) => ["Mussel", about(4, day), every(day, 7, 10), every(day, 7, 0.08), every(day, 10, 210), every(day, 10, 20), every(day, 14, 25), about(8.1, day, 2), about(25, day), ""])],
  at: { top: 0, left: 0, bottom: 20, right: 10, first: 1, units: null },
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("fedBack", "Fed back (g)"), is("change", "Water change (L)"), is("ph", "pH"), is("temperature", "Temperature (C)"), alone],
};

const plainWords: InventedLog = {
  name: "plain words with units behind a comma", language: "English", awkward: false, selected: { row: 4, column: 3 },
  grid: [["Day", "Fed, g", "Nitrate NO3, mg/l", "Phosphate PO4, mg/l", "Algae harvested, g", "Water changed, litres", "Comments"],
    ...days(15, (day) => [about(3, day), every(day, 5, 12), every(day, 5, 0.12), every(day, 7, 180), every(day, 7, 30), every(day, 7, "looks green")])],
  at: { top: 0, left: 0, bottom: 15, right: 6, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), alone],
};

const titled: InventedLog = {
  name: "below a merged title and a blank row", language: "English", awkward: false, selected: { row: 0, column: 0 },
  grid: [["Frag tank, algae screen log 2026", "", "", "", "", ""], [], ["Date", "Feed [g]", "NO3-N [mg/L]", "PO4-P [ug/L]", "Harvest drained [g]", "WC [%]"],
    ...days(18, (day) => [about(5, day), every(day, 6, 2.4), every(day, 6, 40), every(day, 9, 260), every(day, 9, 10)])],
  at: { top: 2, left: 0, bottom: 20, right: 5, first: 3, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4-P (ug/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (%)")],
};

const unitsRow: InventedLog = {
  name: "with a row of units", language: "English", awkward: false, selected: { row: 6, column: 2 },
  grid: [["Date", "Feed", "NO3", "PO4", "Temp", "Harvest", "Top-off", "KH"], ["", "g", "mg/L", "mg/L", "°C", "g", "L", "dKH"],
    ...days(16, (day) => [about(6, day), every(day, 4, 8), every(day, 4, 0.05), about(25.3, day), every(day, 8, 300), about(3, day), every(day, 4, 7.8)])],
  at: { top: 0, left: 0, bottom: 17, right: 7, first: 2, units: 1 },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("temperature", "Temperature (C)"), is("harvest", "Harvest (g)"), is("topUp", "Top-up (L)"), alone],
};

const groups: InventedLog = {
  name: "two heading rows, harvests of two screens", language: "English", awkward: false, selected: { row: 8, column: 5 },
  grid: [["", "Feeding", "", "Water tests (mg/L)", "", "Harvest (g)", "", ""], ["Date", "Food", "Amount (g)", "NO3", "PO4", "left", "right", "Notes"],
    ...days(21, (day) => [day % 2 ? "Mysids, frozen" : "Cod", about(4, day), every(day, 7, 15), every(day, 7, 0.1), every(day, 7, 150), every(day, 7, 130), ""])],
  at: { top: 0, left: 0, bottom: 22, right: 7, first: 2, units: null },
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest left (g)"), is("harvest", "Harvest right (g)"), alone],
};

const noUnits: InventedLog = {
  name: "no unit anywhere", language: "English", awkward: false, selected: { row: 1, column: 1 },
  grid: [["Date", "Feed", "Nitrate", "Phosphate", "Harvest", "Water change", "Temp", "pH"],
    ...days(14, (day) => [about(5, day), every(day, 7, 20), every(day, 7, 0.25), every(day, 7, 190), every(day, 7, 40), about(78, day, 0), about(8.2, day, 1)])],
  at: { top: 0, left: 0, bottom: 14, right: 7, first: 1, units: null },
  columns: [DATE, ask("feed", "Feed (g)"), ask("nitrate", "NO3 (mg/L)"), ask("phosphate", "PO4 (mg/L)"), ask("harvest", "Harvest (g)"), ask("change", "Water change (L)"), ask("temperature", "Temperature (F)"), is("ph", "pH")],
};

const ppm: InventedLog = {
  name: "in ppm and ppb, dates the American way", language: "English", awkward: false, selected: { row: 3, column: 0 },
  grid: [["Date", "Pellets fed (g)", "Nitrate (ppm)", "NO3 ppm", "Phosphorus (ppb)", "Scrapings (g)", "Salinity (ppt)", "Alk (dKH)"],
    ...textDays(20, (date) => `${date.getUTCMonth() + 1}/${date.getUTCDate()}/${date.getUTCFullYear()}`, (day) => [about(2, day), every(day, 5, 10), "", every(day, 5, 26), every(day, 10, 120), about(35, day), about(8, day)])],
  at: { top: 0, left: 0, bottom: 20, right: 7, first: 1, units: null }, dateOrder: "mdy",
  columns: [DATE, is("feed", "Feed Pellets (g)"), ask("nitrate", "NO3 (mg/L)"), ask("nitrate", "NO3 (mg/kg)"), ask("phosphate", "PO4-P (ug/L)"), is("harvest", "Harvest (g)"), is("salinity", "Salinity"), alone],
};

const pond: InventedLog = {
  name: "of a pond, in kg and m3, weekly", language: "English", awkward: false, selected: { row: 2, column: 4 },
  grid: [["Week of", "Pond pellets (kg)", "Ammonia NH4-N (mg/L)", "NO2-N (mg/L)", "NO3-N (mg/L)", "Algae harvest, wet (kg)", "Water change (m3)", "Water temp (°C)", "Fish count"],
    ...days(16, (day) => [about(3.5, day, 2), 0.1, 0.02, about(4, day), every(day, 2, about(6, day)), every(day, 4, 1.5), about(18, day), 42], 7)],
  at: { top: 0, left: 0, bottom: 16, right: 8, first: 1, units: null },
  columns: [DATE, is("feed", "Feed Pond pellets (kg)"), is("ammonia", "NH4-N (mg/L)"), is("nitrite", "NO2-N (mg/L)"), is("nitrate", "NO3-N (mg/L)"), is("harvest", "Harvest (kg)"), is("change", "Water change (m3)"), is("temperature", "Temperature (C)"), alone],
};

const lamps: InventedLog = {
  name: "with lamps and dosing", language: "English", awkward: false, selected: { row: 12, column: 6 },
  grid: [["Date", "Light (umol m-2 s-1)", "Photoperiod (h)", "Light level (%)", "Feed (portions)", "Dosed NO3 (mg)", "PO4 (umol/L)", "Harvest pressed (g)", "Power (kWh)"],
    ...days(24, (day) => [every(day, 12, 220), every(day, 12, 14), every(day, 12, day ? 100 : 50), 2, every(day, 3, 500), every(day, 6, 1.2), every(day, 8, 90), 0.9])],
  at: { top: 0, left: 0, bottom: 24, right: 8, first: 1, units: null },
  columns: [DATE, is("light", "Light (umol m-2 s-1)"), is("lightHours", "Light hours (h)"), is("lightLevel", "Light level (%)"), is("feed", "Feed (portions)"), is("otherIn", "Dosed NO3 (mg)"), is("phosphate", "PO4 (umol/L)"), is("harvest", "Harvest pressed (g)"), alone],
};

const totals: InventedLog = {
  name: "with totals, running means and a notes block below", language: "English", awkward: false, selected: { row: 5, column: 2 },
  grid: [["Date", "Feed (g)", "Total feed (g)", "NO3 (mg/L as NO3)", "7-day average NO3", "Harvest (g)", "Cumulative harvest (g)", "N:P ratio"],
    ...days(14, (day) => [2, 2 * (day + 1), every(day, 7, 10), 10, every(day, 7, 100), 100 * (1 + Math.floor(day / 7)), 16]),
    ["Total", 28, 28, "", "", 200, 200, ""], ["Weighed after two minutes of draining", "", "", "", "", "", "", ""]],
  at: { top: 0, left: 0, bottom: 14, right: 7, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (g)"), alone, is("nitrate", "NO3 (mg/L)"), alone, is("harvest", "Harvest (g)"), alone, alone],
};

const iso: InventedLog = {
  name: "exported: ISO dates, names run together", language: "English", awkward: false, selected: { row: 1, column: 0 },
  grid: [["date", "food_g", "no3_n_mg_l", "po4_mgL", "HarvestWeight_g", "water_change_L", "tempC", "ph"],
    ...textDays(12, (date) => date.toISOString().slice(0, 10), (day) => [about(3, day), every(day, 3, 1.8), every(day, 3, 0.06), every(day, 6, 140), every(day, 6, 20), about(24.6, day), about(8, day)])],
  at: { top: 0, left: 0, bottom: 12, right: 7, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), is("ph", "pH")],
};

const british: InventedLog = {
  name: "British dates in text, units in the cells", language: "English", awkward: false, selected: { row: 9, column: 3 },
  grid: [["Date", "What was fed", "How much fed", "Nitrate as NO3", "Harvest", "Water change"],
    ...textDays(14, (date) => `${two(date.getUTCDate())}/${two(date.getUTCMonth() + 1)}/${date.getUTCFullYear()}`, (day) => ["Krill, peeled", `${about(3, day)} g`, every(day, 7, "10 mg/l"), every(day, 7, "220 g"), every(day, 7, "25 L")])],
  at: { top: 0, left: 0, bottom: 14, right: 5, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)")],
};

export const ENGLISH: readonly InventedLog[] = [ourHeadings, plainWords, titled, unitsRow, groups, noUnits, ppm, pond, lamps, totals, iso, british];
