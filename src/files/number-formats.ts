/** Number formats that a file names by number alone (ECMA-376 18.8.30); dates in the order of the standard, not of a country. */
const BUILT_IN: Readonly<Record<number, string>> = {
  0: "General",
  1: "0",
  2: "0.00",
  3: "#,##0",
  4: "#,##0.00",
  9: "0%",
  10: "0.00%",
  11: "0.00E+00",
  12: "# ?/?",
  13: "# ??/??",
  14: "yyyy-mm-dd",
  15: "d-mmm-yy",
  16: "d-mmm",
  17: "mmm-yy",
  18: "h:mm AM/PM",
  19: "h:mm:ss AM/PM",
  20: "h:mm",
  21: "h:mm:ss",
  22: "yyyy-mm-dd h:mm",
  37: "#,##0 ;(#,##0)",
  38: "#,##0 ;[Red](#,##0)",
  39: "#,##0.00;(#,##0.00)",
  40: "#,##0.00;[Red](#,##0.00)",
  45: "mm:ss",
  46: "[h]:mm:ss",
  47: "mmss.0",
  48: "##0.0E+0",
  49: "@",
};

/** Numbers below this belong to the standard and to national editions of it. */
export const FIRST_OWN_FORMAT = 164;

export function builtInFormat(id: number): string | undefined {
  return BUILT_IN[id];
}

/** The number of a format that a file may name by number, so that a new file need not spell it. Dates are always spelt. */
export function builtInFormatId(format: string): number | undefined {
  const found = Object.entries(BUILT_IN).find(([id, code]) => code === format && (Number(id) < 14 || Number(id) > 22));
  return found && Number(found[0]);
}
