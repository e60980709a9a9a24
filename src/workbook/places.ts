/** Rows and columns count from 0; both ends belong to it. */
export interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** 0 is A, 26 is AA. */
export const letters = (column: number): string => (column > 25 ? letters(Math.floor(column / 26) - 1) : "") + String.fromCharCode(65 + (column % 26));

export const cellAt = (row: number, column: number): string => `${letters(column)}${row + 1}`;

/** "B7", or "B7:C9". */
export function areaAddress({ top, left, bottom, right }: Area): string {
  const [first, last] = [cellAt(top, left), cellAt(bottom, right)];
  return first === last ? first : `${first}:${last}`;
}

/** "$B$7:$C$9" */
export const absolute = (address: string): string => address.replace(/([A-Z]+)(\d+)/g, "$$$1$$$2");

/** Whether Excel takes a text for a formula when it is written to a cell. */
export const startsLikeFormula = (text: string): boolean => /^\s*[=+\-@]/.test(text);
