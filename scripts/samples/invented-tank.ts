import { seededRandom } from "../../src/science/seeded";

/** One lit screen of an invented system: m2, growth once established in g dry m-2 d-1, days between harvests. */
export interface InventedScreen {
  name: string;
  litAreaM2: number;
  growth: number;
  startDay: number;
  everyDays: number;
  /** Days at half light, and so at half growth, after the start. */
  halfLitDays: number;
}

/** An invented tank or pond. Nothing in it was measured anywhere. */
export interface InventedTank {
  seed: number;
  days: number;
  firstSerial: number;
  volumeL: number;
  foods: { name: string; nPerG: number; pPerG: number; gPerDay: number; step: number }[];
  screens: InventedScreen[];
  dryFraction: number;
  tissueN: number;
  tissueP: number;
  startNo3MgPerL: number;
  startPo4MgPerL: number;
  /** Share of the feed's N and P that goes elsewhere each day: sand, plants, animals. */
  otherSinkShare: number;
  changeEveryDays: number;
  changeL: number;
  testEveryDays: number;
}

export interface InventedDay {
  serial: number;
  food: string;
  feedG: number;
  no3: number | null;
  po4: number | null;
  /** Drained grams by screen, null where it was not harvested. */
  harvestG: (number | null)[];
  changeL: number | null;
}

const NO3_PER_N = 4.4266;
const PO4_PER_P = 3.0661;

/**
 * Lets the invented tank live day by day, so that its log hangs together: what is fed is dissolved, grown, harvested or
 * changed away. The keeper in it weighs and tests with errors of the usual size.
 */
export function live(tank: InventedTank): InventedDay[] {
  const random = seededRandom(tank.seed);
  const about = (value: number, share: number): number => value * (1 + share * (random() + random() - 1));
  let n = (tank.startNo3MgPerL / NO3_PER_N / 1000) * tank.volumeL;
  let p = (tank.startPo4MgPerL / PO4_PER_P / 1000) * tank.volumeL;
  const standing = tank.screens.map(() => 0);
  const lastHarvest = tank.screens.map((screen) => screen.startDay);

  return Array.from({ length: tank.days + 1 }, (_, day): InventedDay => {
    const dueOf = (screen: InventedScreen, place: number): boolean =>
      day >= screen.startDay && day - (lastHarvest[place] ?? 0) >= (lastHarvest[place] === screen.startDay ? screen.everyDays + 5 : screen.everyDays);
    // This keeper tests every so many days and before each harvest of the first screen.
    const tests = day % tank.testEveryDays === 0 || (tank.screens[0] !== undefined && dueOf(tank.screens[0], 0));
    const no3 = tests ? about(((n * 1000) / tank.volumeL) * NO3_PER_N, 0.06) : null;
    const po4 = tests ? about(((p * 1000) / tank.volumeL) * PO4_PER_P, 0.06) : null;

    const food = tank.foods[day % tank.foods.length] ?? tank.foods[0];
    if (!food) throw new Error("an invented tank needs a food");
    const feedG = Math.round(about(food.gPerDay, 0.2) / food.step) * food.step;
    n += feedG * food.nPerG * 0.95 * (1 - tank.otherSinkShare);
    p += feedG * food.pPerG * 0.95 * (1 - tank.otherSinkShare);

    tank.screens.forEach((screen, place) => {
      const age = day - screen.startDay;
      if (age < 0) return;
      const since = day - (lastHarvest[place] ?? 0);
      // A young screen holds on slowly; after each harvest the stubble needs a day or two.
      const settled = Math.min(1, (age + 2) / 18) * Math.min(1, (since + 1) / 3) * (age < screen.halfLitDays ? 0.5 : 1);
      const grown = about(screen.growth * screen.litAreaM2 * settled, 0.15);
      const held = Math.min(grown, (0.6 * n) / tank.tissueN, (0.6 * p) / tank.tissueP);
      standing[place] = (standing[place] ?? 0) + held;
      n -= held * tank.tissueN;
      p -= held * tank.tissueP;
    });

    const changeL = day > 0 && day % tank.changeEveryDays === 0 ? tank.changeL : null;
    if (changeL !== null) {
      n *= 1 - changeL / tank.volumeL;
      p *= 1 - changeL / tank.volumeL;
    }
    const harvestG = tank.screens.map((screen, place) => {
      if (!dueOf(screen, place)) return null;
      const drained = Math.round(about((standing[place] ?? 0) / tank.dryFraction, 0.04));
      standing[place] = 0;
      lastHarvest[place] = day;
      return drained;
    });
    return { serial: tank.firstSerial + day, food: food.name, feedG: Number(feedG.toFixed(2)), no3, po4, harvestG, changeL };
  });
}

/** What a meter of this step shows. */
export const onMeter = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(4));
