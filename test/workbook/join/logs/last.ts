import { about, alone, ask, comma, DATE, days, every, is, textDays, type InventedLog } from "./invented";

/** Invented logs of a third round, written when the second had been learnt from. */
const school: InventedLog = {
  name: "of a school, long headings", language: "English", awkward: false, selected: { row: 3, column: 2 },
  grid: [["Date of check", "Amount of fish food (grams)", "Nitrate test result as NO3 in mg per litre", "Phosphate as PO4 in mg per litre", "Weight of algae scraped off (grams, drained)", "Litres of water changed", "Water temperature in degrees C", "Light on (hours per day)", "Who did it"],
    ...days(12, (day) => [about(4, day), every(day, 4, 10), every(day, 4, 0.1), every(day, 6, 170), every(day, 6, 30), about(24, day), 12, "class 4b"])],
  at: { top: 0, left: 0, bottom: 12, right: 8, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), is("lightHours", "Light hours (h)"), alone],
};

const germanShort: InventedLog = {
  name: "Teichbuch mit Abkürzungen", language: "German", awkward: true, selected: { row: 2, column: 5 },
  grid: [["Teichbuch 2026 (Beispiel)", "", "", "", "", "", "", "", ""], ["Tag", "Wochentag", "Pellets kg", "NO3 mg/l", "NH4-N mg/l", "Algen nass kg", "WW m³", "T Wasser °C", "Wetter"],
    ...textDays(14, (date) => `${date.getUTCDate()}.${date.getUTCMonth() + 1}.${date.getUTCFullYear()}`, (day) => [["Di", "Mi", "Do", "Fr", "Sa", "So", "Mo"][day % 7], comma(about(1.2, day, 2)), every(day, 7, "14"), every(day, 7, "0,08"), every(day, 7, "5,5"), every(day, 7, "1,2"), comma(about(17, day)), "sonnig"]), ["", "", "16,8", "", "", "11", "", "", ""]],
  at: { top: 1, left: 0, bottom: 15, right: 8, first: 2, units: null }, dateOrder: "dmy",
  columns: [DATE, alone, is("feed", "Feed Pellets (kg)"), is("nitrate", "NO3 (mg/L)"), is("ammonia", "NH4-N (mg/L)"), is("harvest", "Harvest (kg)"), is("change", "Water change (m3)"), is("temperature", "Temperature (C)"), alone],
};

const frenchMarine: InventedLog = {
  name: "relevés d'un bac marin, deux lignes de titres", language: "French", awkward: false, selected: { row: 6, column: 3 },
  grid: [["", "Distribué", "", "Analyses", "", "", "Tamis à algues", "", ""], ["Date du relevé", "Artémias (g)", "Paillettes (g)", "NO3 (mg/L)", "PO4 (mg/L)", "KH", "Récolte humide (g)", "dont redonnée aux poissons (g)", "Commentaire"],
    ...days(12, (day) => [about(4, day), about(1, day), every(day, 4, 5), every(day, 4, 0.04), 7.8, every(day, 6, 210), every(day, 6, 30), ""])],
  at: { top: 0, left: 0, bottom: 13, right: 8, first: 2, units: null },
  columns: [DATE, is("feed", "Feed Artémias (g)"), is("feed", "Feed Paillettes (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), alone, is("harvest", "Harvest (g)"), is("fedBack", "Fed back (g)"), alone],
};

const spanishPpm: InventedLog = {
  name: "acuario de agua dulce, ppm y sin unidades", language: "Spanish", awkward: true, selected: { row: 4, column: 1 },
  grid: [["Fecha", "Nitratos ppm", "Nitritos ppm", "Fosfatos ppm", "Alimento dado", "Algas retiradas (g)", "% agua cambiada", "Temperatura", "GH", "Media semanal nitratos"],
    ...days(12, (day) => [every(day, 4, 20), 0, every(day, 4, 0.5), about(3, day), every(day, 6, 90), every(day, 6, 20), about(25, day), 8, 20])],
  at: { top: 0, left: 0, bottom: 12, right: 9, first: 1, units: null },
  columns: [DATE, ask("nitrate", "NO3 (mg/L)"), ask("nitrite", "NO2 (mg/L)"), ask("phosphate", "PO4 (mg/L)"), ask("feed", "Feed (g)"), is("harvest", "Harvest (g)"), is("change", "Water change (%)"), ask("temperature", "Temperature (C)"), alone, alone],
};

const dosing: InventedLog = {
  name: "of a planted tank with dosing and a skimmer", language: "English", awkward: true, selected: { row: 1, column: 1 },
  grid: [["Date", "KNO3 (g)", "Dosed nitrate (mL)", "Dosed P (mg)", "Skimmate (mL)", "Removed N (g)", "NO3-N/NO3", "Nitrate nitrogen, mg/L", "Reactive phosphorus mg P/L", "Screen 1 [g]", "Screen 2 [g]"],
    ...days(12, (day) => [0.5, 2, 10, 300, 0.2, "", every(day, 4, 1.1), every(day, 4, 0.02), every(day, 6, 90), every(day, 6, 80)])],
  at: { top: 0, left: 0, bottom: 12, right: 10, first: 1, units: null },
  columns: [DATE, alone, ask("otherIn", "Dosed N (g)"), is("otherIn", "Dosed P (mg)"), alone, is("otherOut", "Removed N (g)"), ask("nitrate", "NO3 (mg/L)"), is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4-P (mg/L)"), ask("leftAlone", "Harvest (g)"), ask("leftAlone", "Harvest (g)")],
};

export const LAST: readonly InventedLog[] = [school, germanShort, frenchMarine, spanishPpm, dosing];
