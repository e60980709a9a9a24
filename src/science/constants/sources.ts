/** Where the constants come from. A key here is all that a constant may name as its source. */
export const SOURCES = {
  "ciaaw-2013": {
    citation: "IUPAC Commission on Isotopic Abundances and Atomic Weights, abridged standard atomic weights (2013 report onwards); Meija et al. 2016, Pure Appl. Chem. 88:265",
    year: 2016,
  },
  "usda-sr26": {
    citation: "USDA Agricultural Research Service, National Nutrient Database for Standard Reference, Release 26 (2013), ABBREV and FOOD_DES files; public domain",
    year: 2013,
  },
  "krill-encyclopedia": { citation: "Food-processing encyclopedia chapter on whole Antarctic krill, chemical composition table", year: 2003 },
  "krill-meat-2012": { citation: "Advanced Materials Research 361-363:799, peeled krill meat", year: 2012 },
  "boyd-queiroz": { citation: "Boyd & Queiroz, nitrogen and phosphorus loads of culture systems, aquaculture trade journal", year: 2001 },
  "padua-2004": { citation: "Padua et al. 2004, composition of Ulva species (protein of dry weight)", year: 2004 },
  "andersen-hessen-1991": { citation: "Andersen & Hessen 1991, Limnol. Oceanogr. 36:807, freshwater zooplankton C, N and P", year: 1991 },
  "omori-1969": { citation: "Omori 1969, Mar. Biol. 3:4, weight and composition of North Pacific zooplankton", year: 1969 },
  "turf-studies": {
    citation: "Range over published turf systems: Kebede-Westhead et al. 2006 (J. Appl. Phycol. 18:41), Mulbry et al. 2008 (Bioresour. Technol. 99:8137), Mulbry & Wilkie 2001 (J. Appl. Phycol. 13:301), D'Aiuto et al. 2015 (Ecol. Eng.), Adey et al. 1993 (Restor. Ecol. 1:29)",
    year: 2015,
  },
  "zollmann-2021": { citation: "Zollmann et al. 2021, Commun. Biol. 4 (Ulva model, parameter file)", year: 2021 },
  "unesco-44": { citation: "Fofonoff & Millard 1983, UNESCO Technical Papers in Marine Science 44 (EOS-80; Millero & Poisson 1981)", year: 1983 },
  "jcgm-100": { citation: "JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement", year: 2008 },
  "kusuma-2020": { citation: "Kusuma, Pattison & Bugbee 2020, Hortic. Res. 7:56, ceilings of LED fixture efficacy", year: 2020 },
  "si-light": { citation: "Definition: 1 mol of photons = 1,000,000 umol; 3600 s in an hour", year: 2019 },
  trade: { citation: "Common practice, no source", year: 0 },
  memory: { citation: "From memory, not checked against a document", year: 0 },
  judgement: { citation: "Judgement of the authors from the ranges of the other sources", year: 0 },
} as const;

export type SourceKey = keyof typeof SOURCES;
