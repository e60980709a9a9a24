import { rows } from "../call";
import { ALGAE } from "../../src/science/constants/algae";
import { FOODS } from "../../src/science/constants/foods";
import { frozenEqual, planScreen, type ScreenWish, wattsNeeded } from "../../src/science/sizing-plan";
import { quantileOfSorted, seededRandom } from "../../src/science/seeded";
import { draw, triangular, withinShare } from "../../src/science/uncertain";

const food = (name: string) => {
  const found = FOODS.find((one) => one.name === name);
  if (!found) throw new Error(name);
  return found;
};

/** Cod, 17.81 % protein and 203 mg P in 100 g: 10 g a day, nothing kept, no water changed, targets that do not slow growth. */
const WISH: ScreenWish = {
  foods: [{ food: food("Cod"), gPerDay: 10 }],
  retainedShare: 0,
  volumeL: 200,
  changedShareAWeek: 0,
  targetNO3MgPerL: null,
  targetPO4MgPerL: null,
  temperatureC: 25,
  setting: "ordinary",
  lightUmolPerM2S: 250,
  hoursPerDay: 14,
  sheetWidthCm: 30,
  litSides: 2,
};
const screenOf = (wish: ScreenWish) => {
  const { screen } = planScreen(wish);
  if (!screen) throw new Error("no screen");
  return screen;
};

describe("loads, by hand", () => {
  test("food brings protein / 6.25 and its phosphorus, less what animals keep", () => {
    const { loads, foodGPerDay } = planScreen({ ...WISH, foods: [...WISH.foods, { food: food("Squid"), gPerDay: 2 }], retainedShare: 0.1 });
    expect(loads.N.fed.value).toBeCloseTo(0.9 * (10 * 0.1781 + 2 * 0.1558) / 6.25, 12);
    expect(loads.P.fed.value).toBeCloseTo(0.9 * (10 * 0.00203 + 2 * 0.00221), 12);
    expect(foodGPerDay).toBe(12);
  });

  test("water changes take out litres a day x target: 200 L x 14 % / 7 d at 10 mg/L NO3, of which 0.2259 is N", () => {
    const { loads } = planScreen({ ...WISH, changedShareAWeek: 0.14, targetNO3MgPerL: 10, targetPO4MgPerL: 1 });
    expect(loads.N.changes).toBeCloseTo(0.004 * 10 * 0.2259, 5);
    expect(loads.P.changes).toBeCloseTo(0.004 * 1 * 0.3261, 5);
    expect(loads.N.left.value).toBeCloseTo(loads.N.fed.value - loads.N.changes, 12);
  });

  test("how far the load may be off: content 20 %, weighing 10 % and what is kept, as independent spreads", () => {
    // Triangular content +- 20 %: u = 0.2 / sqrt 6; rectangular weight +- 10 %: 0.1 / sqrt 3; kept 0 to 0.10 about 0: 0.1 / sqrt 18.
    const u = Math.hypot(0.2 / Math.sqrt(6), 0.1 / Math.sqrt(3), 0.1 / Math.sqrt(18));
    expect(planScreen(WISH).loadShare).toBeCloseTo(Math.ceil(100 * Math.sqrt(3) * u) / 100, 12);
  });

  test("when water changes carry nearly all, the rest is hardly known", () => {
    const nearly = planScreen({ ...WISH, changedShareAWeek: 0.9, targetNO3MgPerL: 45, targetPO4MgPerL: 2.3 });
    expect(nearly.loads.N.left.value).toBeGreaterThan(0);
    expect(nearly.loadShare).toBe(0.9);
  });
});

describe("area", () => {
  test("is what the worksheet function gives for the same loads, figure by figure", () => {
    const wish = { ...WISH, changedShareAWeek: 0.1, targetNO3MgPerL: 5, targetPO4MgPerL: 0.1 };
    const { loads, loadShare, lightMolPerM2Day, habit, frozenFoodGPerDay } = planScreen(wish);
    const { area } = screenOf(wish);
    const [answer] = rows("SCRUBAREA_NEEDED", loads.N.left.value, loads.P.left.value, lightMolPerM2Day, 5, 0.1, 25, "ordinary", null, loadShare);
    [area.low, area.middle, area.high].forEach((figure, place) => expect(figure / (answer?.[place] as number)).toBeCloseTo(1, 9));
    const [common] = rows("SCRUBAREA_HABIT", frozenFoodGPerDay, loads.N.left.value, loads.P.left.value, lightMolPerM2Day, 5, 0.1, 25, "ordinary");
    [habit.areaM2.low, habit.areaM2.high, habit.carried?.low, habit.carried?.high].forEach((figure, place) => expect((figure ?? NaN) / (common?.[place] as number)).toBeCloseTo(1, 9));
  });

  test("is none when the water changes alone carry the load, and then nothing is carried", () => {
    const plan = planScreen({ ...WISH, changedShareAWeek: 2, targetNO3MgPerL: 50, targetPO4MgPerL: 5 });
    expect([plan.screen, plan.habit.carried]).toEqual([null, null]);
  });

  test.each([
    [{ foods: [] }, "there is nothing for a screen to take up"],
    [{ lightUmolPerM2S: 0 }, "Without light nothing grows"],
    [{ targetNO3MgPerL: 0 }, "give a target above zero"],
  ])("%j is refused", (change, sentence) => expect(() => planScreen({ ...WISH, ...change })).toThrow(sentence));

  test("comes as sheets that one hand lifts out, none taller than 60 cm, together of the middle area", () => {
    const { area, sheets } = screenOf(WISH);
    expect(sheets.heightCm).toBeLessThanOrEqual(60);
    expect((sheets.count * sheets.litSides * sheets.widthCm * sheets.heightCm) / 10_000).toBeCloseTo(area.middle, 9);
    expect(screenOf({ ...WISH, litSides: 1, sheetWidthCm: 200 }).sheets.count).toBe(Math.ceil(area.middle / 2 / 0.6));
  });

  test("at the food of the plan the picture shows the plan's area, within its fewer draws", () => {
    const plan = planScreen(WISH);
    const now = plan.areaAtFood.find(({ foodGPerDay }) => foodGPerDay === 10);
    expect((now?.area.value ?? NaN) / (plan.screen?.area.middle ?? NaN)).toBeCloseTo(1, 1);
    // Without another sink the area is proportional to the food: the ends are 0 and twice.
    expect(plan.areaAtFood[0]?.area).toEqual({ low: 0, value: 0, high: 0 });
    expect((plan.areaAtFood[6]?.area.high ?? NaN) / (now?.area.high ?? NaN)).toBeCloseTo(2, 9);
  });
});

describe("hardware and harvest, by hand", () => {
  test("0.2 m2 at 200 umol m-2 s-1 is 40 umol/s: 2.2 umol/J of which 65 % reach the screen make 28 W", () => {
    const { low, value, high } = wattsNeeded(0.2, 200);
    expect([low, value, high]).toEqual([expect.closeTo(40 / (3 * 0.8), 9), expect.closeTo(40 / (2.2 * 0.65), 9), expect.closeTo(40 / (1.2 * 0.5), 9)]);
    const screen = screenOf(WISH);
    expect(screen.kWhAWeek.value).toBeCloseTo((screen.watts.value * 14 * 7) / 1000, 12);
  });

  test("flow is 30 to 60 L/h for each cm of each sheet", () => {
    const { flowLPerH, sheets } = screenOf(WISH);
    expect([flowLPerH.low, flowLPerH.high]).toEqual([900 * sheets.count, 1800 * sheets.count]);
  });

  test("the harvest of a week holds the week's load, and its range is that of drawn tissue, dry fraction and load", () => {
    const wish = { ...WISH, foods: [{ food: { ...food("Cod"), phosphorusMgPer100g: { value: 0, low: 0, high: 0 } }, gPerDay: 10 }] };
    const { loads, loadShare } = planScreen(wish);
    const { harvestDrainedGAWeek: harvest } = screenOf(wish);
    const mean = ({ low, value, high }: { low: number; value: number; high: number }): number => (low + value + high) / 3;
    expect(harvest.value * mean(ALGAE.dryFractionDrained) * mean(ALGAE.tissueN)).toBeCloseTo(7 * loads.N.left.value, 9);
    const random = seededRandom(5);
    const [tissue, dry, off] = [triangular(ALGAE.tissueN), triangular(ALGAE.dryFractionDrained), withinShare(1, loadShare)];
    const drawn = Float64Array.from({ length: 100_000 }, () => (7 * loads.N.left.value * draw(off, random)) / draw(tissue, random) / draw(dry, random)).sort();
    expect(harvest.low / quantileOfSorted(drawn, 0.1)).toBeCloseTo(1, 1);
    expect(harvest.value / quantileOfSorted(drawn, 0.5)).toBeCloseTo(1, 1);
    expect(Math.abs(harvest.high / quantileOfSorted(drawn, 0.9) - 1)).toBeLessThan(0.08);
  });
});

describe("common practice, no source", () => {
  test("3 g of frozen food have both sides of 75 to 100 cm2", () => {
    const { habit } = planScreen({ ...WISH, foods: [{ food: food("Mysids, frozen"), gPerDay: 3 }] });
    expect([habit.areaM2.low, habit.areaM2.high]).toEqual([expect.closeTo(0.015, 12), expect.closeTo(0.02, 12)]);
  });

  test("frozen and fresh food count by weight, dry food by its dry matter as food of 80 % water", () => {
    expect([frozenEqual(food("Mysids, frozen")), frozenEqual(food("Brine shrimp, adult, frozen"))]).toEqual([1, 1]);
    expect(frozenEqual(food("Dry pellets or flakes"))).toBeCloseTo(92 / 20, 12);
    expect(frozenEqual({ ...food("Cod"), waterPercent: null })).toBe(1);
  });
});

test("more food needs more area, more light less, and more changed water less", () => {
  const middle = (change: Partial<ScreenWish>): number => screenOf({ ...WISH, targetNO3MgPerL: 10, targetPO4MgPerL: 0.5, ...change }).area.middle;
  const usual = middle({});
  expect(middle({ foods: [{ food: food("Cod"), gPerDay: 11 }] })).toBeGreaterThan(usual);
  expect(middle({ lightUmolPerM2S: 200 })).toBeGreaterThan(usual);
  expect(middle({ changedShareAWeek: 0.3 })).toBeLessThan(usual);
});
