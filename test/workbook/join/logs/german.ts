import { about, alone, ask, comma, DATE, days, every, is, textDays, two, type InventedLog } from "./invented";

/** Invented logs in German. */
const dotted = (date: Date): string => `${two(date.getUTCDate())}.${two(date.getUTCMonth() + 1)}.${date.getUTCFullYear()}`;

const plain: InventedLog = {
  name: "mit Dezimalkomma im Text", language: "German", awkward: false, selected: { row: 3, column: 2 },
  grid: [["Datum", "Futter", "Futtermenge (g)", "Nitrat NO3 (mg/l)", "Phosphat PO4 (mg/l)", "Ernte (g)", "Wasserwechsel (l)", "Temperatur (°C)", "Bemerkungen"],
    ...textDays(18, dotted, (day) => ["Mussel", comma(about(3.5, day)), every(day, 6, "10"), every(day, 6, "0,08"), every(day, 9, "215"), every(day, 9, "30"), comma(about(25.2, day)), ""])],
  at: { top: 0, left: 0, bottom: 18, right: 8, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), alone],
};

const openBasis: InventedLog = {
  name: "Nitrat ohne Angabe der Form", language: "German", awkward: false, selected: { row: 0, column: 0 },
  grid: [["Beckentagebuch"], ["Tag", "gefüttert [g]", "Nitrat [mg/l]", "Phosphat [mg/l]", "Algenernte abgetropft [g]", "TWW [%]", "KH", "Uhrzeit"],
    ...days(16, (day) => [about(4, day), every(day, 4, 12), every(day, 4, 0.1), every(day, 8, 240), every(day, 8, 10), every(day, 4, 7.5), "18:30"])],
  at: { top: 1, left: 0, bottom: 17, right: 7, first: 2, units: null },
  columns: [DATE, is("feed", "Feed (g)"), ask("nitrate", "NO3 (mg/L)"), ask("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (%)"), alone, alone],
};

const twoRows: InventedLog = {
  name: "zwei Kopfzeilen und Einheitenzeile", language: "German", awkward: false, selected: { row: 10, column: 4 },
  grid: [["", "Fütterung", "", "Wasserwerte", "", "", "Algenernte", ""], ["Datum", "Sorte", "Menge", "NO3", "NO2", "PO4", "Matte 1", "Matte 2"], ["TT.MM.JJJJ", "", "g", "mg/l", "mg/l", "mg/l", "g", "g"],
    ...days(15, (day) => ["Artemia", about(5, day), every(day, 5, 9), every(day, 5, 0.02), every(day, 5, 0.07), every(day, 5, 160), every(day, 5, 140)])],
  at: { top: 0, left: 0, bottom: 17, right: 7, first: 3, units: 2 },
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("nitrite", "NO2 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest 1 (g)"), is("harvest", "Harvest 2 (g)")],
};

const element: InventedLog = {
  name: "Photometer, als Stickstoff und Phosphor", language: "German", awkward: false, selected: { row: 2, column: 1 },
  grid: [["Datum", "Futter in g", "Nitrat-N mg/l", "Ammonium (mg/l NH4-N)", "PO4-P µg/l", "Gepresste Ernte in g", "Nachgefüllt in Liter", "Salzgehalt in PSU", "Leitwert mS/cm"],
    ...days(14, (day) => [about(6, day), every(day, 7, 2.2), every(day, 7, 0.03), every(day, 7, 35), every(day, 7, 95), about(2.5, day), every(day, 7, 34.5), every(day, 7, 52.6)])],
  at: { top: 0, left: 0, bottom: 14, right: 8, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3-N (mg/L)"), is("ammonia", "NH4-N (mg/L)"), is("phosphate", "PO4-P (ug/L)"), is("harvest", "Harvest pressed (g)"), is("topUp", "Top-up (L)"), is("salinity", "Salinity"), alone],
};

const summed: InventedLog = {
  name: "mit Summenzeile, laufender Summe und Rückfütterung", language: "German", awkward: false, selected: { row: 4, column: 4 },
  grid: [["Datum", "Frostfutter (Portionen)", "Ernte (g)", "davon verfüttert (g)", "Summe Ernte (g)", "Durchschnitt", "NO3 (mg/l)", "Beleuchtungsdauer (h)"],
    ...days(14, (day) => [2, every(day, 7, 180), every(day, 7, 30), 180 * (1 + Math.floor(day / 7)), 25, every(day, 7, "<5"), 14]), ["Summe", 28, 360, 60, "", "", "", ""]],
  at: { top: 0, left: 0, bottom: 14, right: 7, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (portions)"), is("harvest", "Harvest (g)"), is("fedBack", "Fed back (g)"), alone, alone, is("nitrate", "NO3 (mg/L)"), is("lightHours", "Light hours (h)")],
};

export const GERMAN: readonly InventedLog[] = [plain, openBasis, twoRows, element, summed];
