/** Commands of the grid's tool bar and menus that lead nowhere on this page. */
const HIDDEN: readonly string[] = [];

export function hiddenMenuItems(): Record<string, { hidden: true }> {
  return Object.fromEntries(HIDDEN.map((id) => [id, { hidden: true }]));
}
