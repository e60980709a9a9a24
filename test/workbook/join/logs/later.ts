import { about, alone, ask, comma, DATE, days, every, is, textDays, two, type InventedLog } from "./invented";

/** Invented logs that were written after the recognition had seen the others, so that it could not be fitted to them. */
const club: InventedLog = {
  name: "of a club, with initials and many side readings", language: "English", awkward: false, selected: { row: 2, column: 3 },
  grid: [["Reading date", "By", "Ammonium (NH4, mg/L)", "Nitrite (NO2, mg/L)", "Nitrate (NO3, mg/L)", "Orthophosphate (PO4, mg/L)", "Ca (mg/L)", "Mg (mg/L)", "Food given (g)", "Screen growth scraped (g wet)", "Water replaced (L)", "Evaporation top up (L)", "Mood"],
    ...days(12, (day) => ["JT", 0.05, 0.02, about(9, day), about(0.07, day, 2), 420, 1350, about(7, day), every(day, 6, 310), every(day, 6, 30), about(2, day), "fine"])],
  at: { top: 0, left: 0, bottom: 12, right: 12, first: 1, units: null },
  columns: [DATE, alone, is("ammonia", "NH4 (mg/L)"), is("nitrite", "NO2 (mg/L)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), alone, alone, is("feed", "Feed (g)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("topUp", "Top-up (L)"), alone],
};

const trial: InventedLog = {
  name: "of a trial with two units and lamps for each", language: "English", awkward: true, selected: { row: 6, column: 2 },
  grid: [["Trial B", "", "", "", "", "", "", ""], ["Keeper:", "M. Example", "", "", "", "", "", ""], ["Date", "Harvest, wide screen (g)", "Harvest, narrow screen (g)", "Returned to fish (g)", "PAR wide (µmol/m²/s)", "Light hours wide (h/day)", "Total nitrogen (mg/L)", "Soluble phosphate PO4-P (µmol/L)"],
    ...days(20, (day) => [every(day, 10, 410), every(day, 10, 190), every(day, 10, 60), every(day, 10, 250), every(day, 10, 16), every(day, 5, 3.2), every(day, 5, 0.9)])],
  at: { top: 2, left: 0, bottom: 22, right: 7, first: 3, units: null },
  columns: [DATE, is("harvest", "Harvest wide (g)"), is("harvest", "Harvest narrow (g)"), is("fedBack", "Fed back (g)"), is("light", "Light wide (umol m-2 s-1)"), is("lightHours", "Light hours wide (h)"), is("totalNitrogen", "N (mg/L)"), is("phosphate", "PO4-P (umol/L)")],
};

const germanLab: InventedLog = {
  name: "Laborwerte als Element, Kopf über drei Zeilen", language: "German", awkward: true, selected: { row: 9, column: 1 },
  grid: [["Aquarium 450 l", "", "", "", "", "", "", ""], ["", "Nährstoffe (mg/l als N bzw. P)", "", "Filter", "", "Wasser", "", ""], ["Datum", "Nitrat", "Phosphat", "abgeerntet (g, abgetropft)", "davon zurückgefüttert (g)", "gewechselt (l)", "verdunstet (l)", "gefüttert (Portionen)"],
    ...textDays(16, (date) => `${date.getUTCDate()}.${date.getUTCMonth() + 1}.${String(date.getUTCFullYear()).slice(2)}`, (day) => [every(day, 4, comma(2.4)), every(day, 4, comma(0.03)), every(day, 8, "205"), every(day, 8, "25"), every(day, 8, "40"), comma(about(2.2, day)), "2"])],
  at: { top: 1, left: 0, bottom: 18, right: 7, first: 3, units: null }, dateOrder: "dmy",
  columns: [DATE, is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4-P (mg/L)"), is("harvest", "Harvest (g)"), is("fedBack", "Fed back (g)"), is("change", "Water change (L)"), is("topUp", "Top-up (L)"), is("feed", "Feed (portions)")],
};

const frenchPond: InventedLog = {
  name: "étang, hebdomadaire, en kg", language: "French", awkward: false, selected: { row: 1, column: 1 },
  grid: [["Semaine du", "Granulés (kg)", "Nitrates en mg/L de NO3", "Ammoniaque", "Algues récoltées, essorées (kg)", "Eau renouvelée (m3)", "Temp. de l'eau (°C)", "Météo"],
    ...textDays(14, (date) => `${two(date.getUTCDate())}-${two(date.getUTCMonth() + 1)}-${date.getUTCFullYear()}`, (day) => [comma(about(3, day)), "22", "0,2", comma(about(4, day)), "2", comma(about(17, day)), "beau"], 7)],
  at: { top: 0, left: 0, bottom: 14, right: 7, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("feed", "Feed Granulés (kg)"), is("nitrate", "NO3 (mg/L)"), ask("ammonia", "NH4 (mg/L)"), is("harvest", "Harvest pressed (kg)"), is("change", "Water change (m3)"), is("temperature", "Temperature (C)"), alone],
};

const spanishLab: InventedLog = {
  name: "registro con unidades en una fila y total al pie", language: "Spanish", awkward: false, selected: { row: 10, column: 6 },
  grid: [["Fecha", "Pienso", "Nitrógeno de nitrato (N-NO3)", "Fósforo (P-PO4)", "Peso cosechado escurrido", "Recambio", "Relleno", "Horas de luz", "pH", "Salinidad"], ["", "g", "mg/L", "µg/L", "g", "L", "L", "h", "", "ppt"],
    ...days(15, (day) => [about(9, day), every(day, 5, 1.9), every(day, 5, 30), every(day, 5, 240), every(day, 5, 25), about(3, day), 12, about(8.1, day, 2), 35]), ["Total", 135, "", "", 720, 75, 45, "", "", ""]],
  at: { top: 0, left: 0, bottom: 16, right: 9, first: 2, units: 1 },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4-P (ug/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("topUp", "Top-up (L)"), is("lightHours", "Light hours (h)"), is("ph", "pH"), is("salinity", "Salinity")],
};

const terse: InventedLog = {
  name: "in letters only", language: "English", awkward: true, selected: { row: 0, column: 4 },
  grid: [["d", "F (g)", "N", "P", "H (g)", "WC (L)", "T (C)", "S"], ...days(10, (day) => [about(3, day), every(day, 5, 10), every(day, 5, 0.1), every(day, 5, 170), every(day, 5, 20), about(25, day), 35])],
  at: { top: 0, left: 0, bottom: 10, right: 7, first: 1, units: null },
  columns: [DATE, ask("leftAlone", "Feed (g)"), ask("totalNitrogen", "NO3 (mg/L)"), ask("phosphate", "PO4 (mg/L)"), ask("leftAlone", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), alone],
};

const mixedUnits: InventedLog = {
  name: "with mixed units in the cells and a repeated heading", language: "English", awkward: true, selected: { row: 5, column: 1 },
  grid: [["Date", "Harvest", "Nitrate", "Water change"], ...days(8, (day) => [day % 2 ? "0.2 kg" : "180 g", "10 ppm NO3", day % 2 ? "10%" : "20 L"]), ["Date", "Harvest", "Nitrate", "Water change"], ...days(8, (day) => [day % 2 ? "0.2 kg" : "180 g", "10 ppm NO3", "20 L"]).map(([date, ...rest]) => [Number(date) + 8, ...rest])],
  at: { top: 0, left: 0, bottom: 17, right: 3, first: 1, units: null },
  columns: [DATE, ask("harvest", "Harvest (g)"), ask("nitrate", "NO3 (mg/L)"), ask("change", "Water change (L)")],
};

export const LATER: readonly InventedLog[] = [club, trial, germanLab, frenchPond, spanishLab, terse, mixedUnits];
