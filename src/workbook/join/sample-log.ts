/** Nine weeks of an invented tank of 180 L with one lit screen of 0.15 m2: no tank, keeper or reading is real. */
const FEED_G = [
  1.9, 1.7, 2.2, 2.2, 2.4, 1.8, 2.1, 2.2, 2.1, 1.8, 2.4, 1.9, 1.9, 2.3, 2, 2, 1.9, 2, 2.1, 2.4, 2.4, 2.2, 2.4, 1.7, 2.2, 2.3, 2, 2, 2.2, 1.9, 2.1, 1.7,
  2.3, 1.7, 2.3, 2.1, 2.2, 1.9, 2.1, 2.2, 2.4, 2, 2.2, 1.7, 2.3, 2, 2.4, 2.1, 2, 2, 2.3, 1.9, 1.9, 1.8, 1.9, 2.1, 2.2, 2, 1.9, 1.9, 2.3, 2.2, 2.1, 1.8,
] as const;

interface Entry {
  readonly no3: number;
  readonly po4: number;
  readonly harvestG?: number;
  readonly changeL?: number;
}
/** What was tested, harvested and changed, by the day. */
const ENTRIES: Readonly<Record<number, Entry>> = {
  0: { no3: 14, po4: 0.22 },
  7: { no3: 19, po4: 0.6 },
  14: { no3: 22, po4: 0.8, harvestG: 72 },
  21: { no3: 23, po4: 0.89, changeL: 18 },
  23: { no3: 20.5, po4: 0.83, harvestG: 94 },
  28: { no3: 21.5, po4: 0.85 },
  32: { no3: 22.5, po4: 0.9, harvestG: 98 },
  35: { no3: 22, po4: 0.92 },
  41: { no3: 23, po4: 0.99, harvestG: 97 },
  42: { no3: 22.5, po4: 0.99, changeL: 18 },
  49: { no3: 21, po4: 0.96 },
  50: { no3: 21.5, po4: 1.01, harvestG: 98 },
  56: { no3: 22, po4: 1.05 },
  59: { no3: 23, po4: 1.08, harvestG: 96 },
  63: { no3: 22.5, po4: 1.09, changeL: 18 },
};

/** The set-up of that tank, by the rows of the sheet that a join adds. */
export const SAMPLE_SET_UP: Readonly<Record<string, string | number>> = {
  "Volume (L)": 180,
  "NO3 kit steps": 0.5,
  "PO4 kit steps": 0.01,
  "Lit area (m2)": 0.15,
  "Dry fraction": 0.085,
  "Light (umol m-2 s-1)": 220,
  "Light hours (h)": 14,
};

/** Its rows, a day each, under seven headings. @param last the serial of the last day */
export const sampleRows = (last: number): (string | number)[][] =>
  FEED_G.map((feed, day) => {
    const { no3 = "", po4 = "", harvestG = "", changeL = "" } = ENTRIES[day] ?? {};
    return [last - (FEED_G.length - 1) + day, day % 2 === 0 ? "Mysids, frozen" : "Mussel", feed, no3, po4, harvestG, changeL];
  });
