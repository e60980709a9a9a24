/** Of a number, as a share of it. */
const LAST_DIGITS = 1e-14;

/** Whether two values are one number: the engine rounds to 15 digits and Excel stores 17, so one that differs in the last ones only stays as it is stored. */
export function sameNumber(one: unknown, other: unknown): boolean {
  return typeof one === "number" && typeof other === "number" && Math.abs(one - other) <= LAST_DIGITS * Math.max(Math.abs(one), Math.abs(other));
}
