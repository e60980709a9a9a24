/** A cell or range with its sheet, as Excel writes it: Log!B7, 'Tank 2'!B7:C9. */
export interface SheetAddress {
  sheet: string;
  /** "B7" or "B7:C9", without dollar signs. */
  cell: string;
}

const PLAIN_SHEET_NAME = /^[\p{L}_][\p{L}\p{N}_.]*$/u;
const LOOKS_LIKE_CELL = /^([A-Za-z]{1,3}\d+|[Rr]\d*[Cc]\d*)$/;

/** Writes an address; the sheet name is quoted where Excel would quote it. */
export function joinAddress(sheet: string, cell: string): string {
  const plain = PLAIN_SHEET_NAME.test(sheet) && !LOOKS_LIKE_CELL.test(sheet);
  return `${plain ? sheet : `'${sheet.replace(/'/g, "''")}'`}!${cell}`;
}

/** Reads an address that joinAddress or Excel wrote, quoted or not. The sheet is "" when the address names none. */
export function splitAddress(address: string): SheetAddress {
  const cut = address.lastIndexOf("!");
  const cell = address.slice(cut + 1).replace(/\$/g, "");
  const written = cut < 0 ? "" : address.slice(0, cut);
  const quoted = written.length >= 2 && written.startsWith("'") && written.endsWith("'");
  return { sheet: quoted ? written.slice(1, -1).replace(/''/g, "'") : written, cell };
}
