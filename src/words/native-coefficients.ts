/** Coefficients of published equations on the sheet of sources: their names, and who published them. A value from memory names nobody. */
const memory = "(from memory)";
const eos = "EOS-80";
const pss = "PSS-78";

/** "EOS-80, density of pure water: coefficient of t^2" */
const term = (equation: string, variable: string, power: number): string => `${equation}: ${power === 0 ? "constant" : `coefficient of ${variable}${power === 1 ? "" : `^${power}`}`}`;
/** "kg/m3 per degree C^2" */
const perPower = (unit: string, variableUnit: string, power: number): string => (power === 0 ? unit : `${unit} per ${variableUnit}${power === 1 ? "" : `^${power}`}`);

export const nativeCoefficients = {
  term,
  perPower,
  density: {
    pureWater: `${eos}, density of pure water`,
    linearInS: `${eos}, part for each unit of salinity`,
    sTo3Over2: `${eos}, part for salinity to the power of 3/2`,
    sSquared: `${eos}, coefficient of salinity squared`,
    seawater: "Density of sea water of salinity 35 at 25 degrees C",
    seawaterFrom: (citation: string) => `Worked out by EOS-80: ${citation}`,
  },
  t68: { name: "Degrees of the scale of 1968 in one of the scale of 1990", from: memory },
  salinity: {
    A: `${pss}, A`,
    B: `${pss}, B`,
    C: `${pss}, conductivity of standard sea water over the one at 15 degrees C`,
    k: `${pss}, k`,
    standard: "Conductivity of standard sea water at 15 degrees C",
  },
  oxygen: {
    atOneAtmosphere: "Logarithm of the oxygen at one atmosphere",
    salt: "Its part for each unit of salinity",
    vapour: "Logarithm of the pressure of water vapour",
    pressure: "Pressure term of the oxygen",
    from: "Benson & Krause 1984 in the form of Standard Methods 4500-O",
    pressureFrom: memory,
  },
  ammonia: {
    fresh: "pKa of ammonium in fresh water",
    freshFrom: "Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379",
    salt: { at298K: "pKa of ammonium in sea water: at 298 K", perIonicStrength: "pKa of ammonium in sea water: part for the ionic strength", perKelvin: "pKa of ammonium in sea water: part for each kelvin below 298", reference: "pKa of ammonium in sea water: temperature that it starts from", perPressure: "pKa of ammonium in sea water: part for one atmosphere over the temperature" },
    ionicStrength: ["Ionic strength of sea water: of salinity, above the line", "Ionic strength of sea water: start of the part below the line", "Ionic strength of sea water: of salinity, below the line"],
    saltFrom: "EPA 440/5-88-004 (1989), after Whitfield 1974 and Hampson 1977",
    spread: { fresh: "How far the un-ionised share may be off in fresh water", salt: "How far the un-ionised share may be off in sea water" },
    spreadFrom: "(judgement)",
  },
  alkalinity: {
    process: (process: string) => `Change of alkalinity with ${process}`,
    from: (process: string) => (process === "nitrification" ? "Wolf-Gladrow et al. 2007, Mar. Chem. 106:287" : memory),
  },
} as const;
