/** Headings as Excel makes them when a range becomes a table: texts, none of them blank, none twice. */
export function headingTexts(cells: readonly unknown[]): string[] {
  const taken = new Set<string>();
  return cells.map((cell, i) => {
    const stem = cell === "" || cell === null || cell === undefined ? "" : String(cell);
    let name = stem === "" ? `Column${i + 1}` : stem;
    for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = `${stem === "" ? "Column" : stem}${number}`;
    taken.add(name.toLowerCase());
    return name;
  });
}
