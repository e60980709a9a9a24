/** The points of an SVG "points" text. */
export const picturePoints = (text: string): { x: number; y: number }[] =>
  text.split(" ").map((pair) => {
    const [x = NaN, y = NaN] = pair.split(",").map(Number);
    return { x, y };
  });
