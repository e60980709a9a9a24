/** Words of the screen that sizes an algae screen. Units stand in the words, figures come as text. */
const perCent = (share: number): string => {
  const percent = 100 * share;
  return percent > 0 && percent < 1 ? "less than 1 %" : `${Math.round(percent)} %`;
};

export const size = {
  title: "Size a screen",
  intro: "How much lit screen carries what you feed. Change any figure: the answer follows.",

  answer: {
    title: "Lit area",
    range: (low: string, high: string, unit: string) => `${low} to ${high} ${unit}`,
    likely: (middle: string, unit: string, sheets: string) => `Most likely ${middle} ${unit}: ${sheets}.`,
    sheets: (count: number, width: string, height: string, unit: string, sides: 1 | 2) =>
      `${count === 1 ? "a sheet" : `${count} sheets`} of ${width} x ${height} ${unit}, lit on ${sides === 2 ? "both sides" : "one side"}`,
    spoken: (range: string, likely: string) => `Lit area ${range}. ${likely}`,
    none: "No answer yet",
    noneWhy: (count: number) => (count === 1 ? "One entry below needs another look." : `${count} entries below need another look.`),
    noScreen: "No screen is needed",
    noScreenWhy: "The water changes alone take out what the food brings in. Change less water, or lower the targets, and ask again.",
  },

  form: {
    title: "Your water and light",
    water: "Water",
    waters: { fresh: "Fresh", brackish: "Brackish", marine: "Marine" },
    units: "Units",
    unitNames: { metric: "Metric", us: "US" },
    startHint: "What you have not typed is a usual value for this water: common practice, no source.",
    foods: "Food a day",
    food: (number: number) => `Food ${number}`,
    amount: (number: number) => `Amount of food ${number} a day`,
    add: "Add a food",
    remove: "Remove",
    removeFood: (name: string) => `Remove ${name}`,
    fields: {
      volume: "Water volume",
      changed: "Changed a week",
      no3: "Nitrate wanted",
      po4: "Phosphate wanted",
      temperature: "Temperature",
      light: "Light on the screen",
      hours: "Hours lit a day",
      width: "Sheet width",
      retained: "Kept by growth",
    },
    setting: "Growing conditions",
    settings: { weak: "Weak light, indoors", ordinary: "Ordinary, indoors", strong: "Strong light and surge", outdoor: "Outdoors, best season" },
    sides: "Sheet lit on",
    sidesNames: { 2: "Both sides", 1: "One side" },
    /** Symbols and words beside a box. */
    unit: {
      volume: { metric: "L", us: "US gal" },
      mass: { metric: "g", us: "oz" },
      length: { metric: "cm", us: "in" },
      temperature: { metric: "degrees C", us: "degrees F" },
      percent: "%",
      no3: "mg/L NO3",
      po4: "mg/L PO4",
      light: "umol m-2 s-1",
      hours: "h",
    },
  },

  problem: {
    blank: (name: string, example: string) => `${name} is empty: write a number, such as ${example}.`,
    belowOrZero: (name: string) => `${name} should be more than 0.`,
    targetForChanges: (name: string) => `${name} is needed to count the water changes: write the reading that you want to keep.`,
    nothingFed: "Nothing is fed: give at least one food an amount above 0.",
    lightSum: (mol: string, most: number) => `This light and these hours make ${mol} mol m-2 d-1, and full summer sun gives less than ${most}. Check both.`,
    unknown: "These figures have no answer. Check each of them.",
  },

  why: {
    title: "What sets it",
    load: (nitrogen: string, phosphorus: string) => `A day's food brings ${nitrogen} of nitrogen and ${phosphorus} of phosphorus into the water, less what growing animals keep.`,
    changes: (nitrogen: string, phosphorus: string) => `At your readings, water changes take out ${nitrogen} and ${phosphorus} of that, if the new water holds none. The screen has to take the rest.`,
    range: "In 8 of 10 draws over what is uncertain the area lies in the range.",
  },

  habit: {
    title: "Beside common practice",
    area: (low: string, high: string, unit: string) => `The trade's habit would use ${low === high ? low : `${low} to ${high}`} ${unit} lit: both sides of 75 to 100 cm2 of sheet for 3 g of frozen food. It has no source.`,
    carries: (low: number, high: number) => `By this account that carries ${perCent(low)} to ${perCent(high)} of the load.`,
    gap: "Why the gap? A screen takes out only what grows on it, and little grows on a small one. Tanks with a small screen look well because water changes, sand, rock and other algae take the rest, or because readings rise slowly. Count on the habit for a part, not for the whole.",
    noGap: "Here the habit and this account agree: the usual size can carry the load.",
  },

  picture: {
    title: "Lit area against food",
    alt: (food: string, low: string, high: string, middle: string, habit: string) =>
      `The lit area grows with the food. At ${food} a day it is ${low} to ${high}, most likely ${middle}; common practice has ${habit}.`,
    food: (unit: string) => `Food, ${unit} a day`,
    area: (unit: string) => `Lit area, ${unit}`,
    likely: "most likely",
    range: "8 of 10 draws",
    habit: "common practice",
    yours: "yours",
  },

  figures: {
    title: "To build and run it",
    light: "Light",
    lightText: (umol: string) => `${umol} umol m-2 s-1`,
    lightSum: (hours: string, mol: string) => `${hours} h a day: ${mol} mol m-2 d-1`,
    watts: "Lamps",
    about: (value: string, unit: string) => `about ${value} ${unit}`,
    range: (low: string, high: string, unit: string) => `${low} to ${high} ${unit}`,
    energy: "Electricity",
    energyUnit: "kWh a week",
    flow: "Flow",
    flowUnit: { metric: "L/h", us: "US gal/h" },
    flowOver: (count: number) => (count === 1 ? "over the sheet" : `over all ${count} sheets`),
    harvest: "Harvest, drained",
    harvestUnit: { metric: "g a week", us: "oz a week" },
    interval: "Between harvests",
    intervalUnit: "days",
    note: "For the most likely area. Flow is common practice, no source; lamps differ by more than two times.",
  },

  put: {
    button: "Put into workbook",
    busy: "Writing",
    explained: "Adds a sheet with these figures as live formulas. No cell of yours is touched.",
    metric: "The sheet is in metric units, as the functions are.",
    done: (sheet: string) => `Written on the new sheet ${sheet}.`,
    refused: "The sheet could not be added. Finish the cell that is being edited, or unprotect the workbook's structure, and try again.",
  },

  cautionsTitle: "Before you build",
  cautions: [
    { title: "Mains electricity beside water.", text: "Residual-current device, drip loops, the local code, and a licensed electrician for fixed wiring. Unplug before your hands go in." },
    { title: "Lamps over water.", text: "Use lamps made for wet places, and fasten them twice so that they cannot fall in." },
    { title: "A plan, not a promise.", text: "It rests on a mass balance with wide ranges. Start, log the harvests, and let your own figures replace these." },
    { title: "Change nutrients slowly.", text: "Animals bear slow changes better; a test kit is not a diagnosis." },
  ],
} as const;
