import { about, alone, ask, comma, DATE, days, every, is, textDays, two, type InventedLog } from "./invented";

/** Invented logs in French and Spanish. */
const slashed = (date: Date): string => `${two(date.getUTCDate())}/${two(date.getUTCMonth() + 1)}/${date.getUTCFullYear()}`;

const french: InventedLog = {
  name: "carnet du bac", language: "French", awkward: false, selected: { row: 2, column: 2 },
  grid: [["Date", "Aliment", "Nourriture (g)", "Nitrates NO3 (mg/l)", "Phosphates PO4 (mg/l)", "Récolte égouttée (g)", "Changement d'eau (L)", "Température (°C)", "Remarques"],
    ...textDays(18, slashed, (day) => ["Cod", comma(about(4, day)), every(day, 6, "12"), every(day, 6, "0,1"), every(day, 9, "230"), every(day, 9, "30"), comma(about(25, day)), every(day, 9, "nettoyage")])],
  at: { top: 0, left: 0, bottom: 18, right: 8, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), alone],
};

const frenchElement: InventedLog = {
  name: "azote et phosphore d'un laboratoire", language: "French", awkward: false, selected: { row: 5, column: 1 },
  grid: [["Suivi du bassin", "", "", "", "", "", ""], ["Jour", "Nourriture distribuée", "N-NO3", "P-PO4", "N-NH4", "Récolte d'algues", "Appoint d'eau"], ["", "g", "mg/L", "µg/L", "mg/L", "g", "L"],
    ...days(15, (day) => [about(20, day), every(day, 5, 3.1), every(day, 5, 60), every(day, 5, 0.05), every(day, 5, 800), about(6, day)])],
  at: { top: 1, left: 0, bottom: 17, right: 6, first: 3, units: 2 },
  columns: [DATE, is("feed", "Feed (g)"), is("nitrate", "NO3-N (mg/L)"), is("phosphate", "PO4-P (ug/L)"), is("ammonia", "NH4-N (mg/L)"), is("harvest", "Harvest (g)"), is("topUp", "Top-up (L)")],
};

const frenchOpen: InventedLog = {
  name: "sans unités, moyenne et total", language: "French", awkward: false, selected: { row: 1, column: 3 },
  grid: [["Date", "Nourriture", "Nitrates", "Moyenne nitrates", "Récolte (g)", "Total récolte (g)", "Durée d'éclairage (heures)", "Salinité"],
    ...days(12, (day) => [about(3, day), every(day, 4, 15), 15, every(day, 6, 150), 150 * (1 + Math.floor(day / 6)), 12, every(day, 4, 35)])],
  at: { top: 0, left: 0, bottom: 12, right: 7, first: 1, units: null },
  columns: [DATE, ask("feed", "Feed (g)"), ask("nitrate", "NO3 (mg/L)"), alone, is("harvest", "Harvest (g)"), alone, is("lightHours", "Light hours (h)"), is("salinity", "Salinity")],
};

const spanish: InventedLog = {
  name: "diario del acuario", language: "Spanish", awkward: false, selected: { row: 7, column: 5 },
  grid: [["Fecha", "Comida", "Cantidad de comida (g)", "Nitrato NO3 (mg/L)", "Fosfato PO4 (mg/L)", "Cosecha de algas (g)", "Cambio de agua (litros)", "Temperatura (°C)", "Observaciones"],
    ...textDays(18, slashed, (day) => ["Clam", comma(about(4, day)), every(day, 6, "18"), every(day, 6, "0,15"), every(day, 9, "260"), every(day, 9, "40"), comma(about(26, day)), ""])],
  at: { top: 0, left: 0, bottom: 18, right: 8, first: 1, units: null }, dateOrder: "dmy",
  columns: [DATE, is("food", "Food"), is("feed", "Feed (g)"), is("nitrate", "NO3 (mg/L)"), is("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest (g)"), is("change", "Water change (L)"), is("temperature", "Temperature (C)"), alone],
};

const spanishOpen: InventedLog = {
  name: "dos pantallas, porcentaje y bases abiertas", language: "Spanish", awkward: false, selected: { row: 3, column: 0 },
  grid: [["Día", "Alimento (raciones)", "Nitrato (mg/L)", "Fosfato (ppm)", "Cosecha izquierda (g)", "Cosecha derecha (g)", "Devuelto a los peces (%)", "Cambio de agua (%)", "Promedio"],
    ...days(15, (day) => [2, every(day, 5, 20), every(day, 5, 0.2), every(day, 5, 130), every(day, 5, 120), every(day, 5, 20), every(day, 5, 15), 4])],
  at: { top: 0, left: 0, bottom: 15, right: 8, first: 1, units: null },
  columns: [DATE, is("feed", "Feed (portions)"), ask("nitrate", "NO3 (mg/L)"), ask("phosphate", "PO4 (mg/L)"), is("harvest", "Harvest izquierda (g)"), is("harvest", "Harvest derecha (g)"), is("fedBack", "Fed back (%)"), is("change", "Water change (%)"), alone],
};

export const ROMANCE: readonly InventedLog[] = [french, frenchElement, frenchOpen, spanish, spanishOpen];
