import { ALGAE } from "../../science/constants/algae";
import { standingCrop, type StandingCrop } from "../../science/budget/crop";
import type { HarvestEntry, Log, SetUp } from "../../science/budget/log";
import type { Period } from "../../science/budget/period";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import type { Sources } from "../sources";
import type { HarvestTable, ScreenCells } from "./entries";
import { Table } from "./table";

export type CropTable = Table<"period" | "sign" | "screen" | "how" | "drained" | "share" | "guess" | "amount" | "best" | "variance">;

interface CropRow {
  readonly period: number;
  readonly sign: 1 | -1;
  readonly screen: number;
  readonly how: "drained" | "pressed" | "dry";
  /** Place of the harvest that weighed it; null for one that was never weighed. */
  readonly harvest: number | null;
  readonly kind: "share" | "scaled" | "usual";
  /** Formulas of the days: since when it grows, until when it grew for the share's divisor, and the moment itself. */
  readonly since: string;
  readonly until: string;
  readonly day: string;
  /** The first row of one moment, and how many rows that moment has. */
  readonly ofMoment: number;
}

/** What the crop's days are, as cells. */
export interface CropDays {
  readonly from: (period: number) => string;
  readonly to: (period: number) => string;
  readonly started: (screen: number) => string;
  /** Its lit area, m2. */
  readonly area: (screen: number) => string;
}

/** What stands on the screens at the ends of each period, as the account reckons it: part of the next harvest, by the usual curve of regrowth. */
export function cropTable(draft: Draft, left: number, log: Log, setUp: SetUp, periods: readonly Period[], harvests: HarvestTable, screens: readonly ScreenCells[], days: CropDays, sources: Sources): CropTable {
  const rows = cropRows(log, setUp, periods, harvests, days);
  const table: CropTable = new Table(draft, left, words.crop, words.cropHeadings, rows.length);
  const [most, stubble, rate] = [sources.constant(ALGAE.standingCropMost), sources.constant(ALGAE.stubbleShare), sources.constant(ALGAE.regrowthRate)];
  const grown = (time: string): string => `(${most}/(1+(1/${stubble}-1)*EXP(-${rate}*(${time})))-${most}*${stubble})`;
  rows.forEach((one, row) => {
    const screen = screens[one.screen];
    if (!screen) return;
    const at = (name: Parameters<CropTable["cell"]>[1]): string => table.cell(row, name);
    const dry = one.how === "pressed" ? screen.pressed.best : screen.drained.best;
    table.put(row, "period", one.period + 1);
    table.put(row, "sign", one.sign);
    table.put(row, "screen", one.screen + 1);
    table.put(row, "how", one.how);
    table.put(row, "guess", one.kind === "share" ? 0 : 1);
    const time = grown(`${one.day}-${one.since}`);
    if (one.kind === "usual") {
      table.formula(row, "drained", `${time}*${days.area(one.screen)}`);
      table.put(row, "share", 1);
    } else {
      table.formula(row, "drained", harvests.cell(one.harvest ?? 0, "drained"));
      // The share holds while the days keep their order.
      const inOrder = one.kind === "share" ? `AND(${one.day}>=${one.since},${one.day}<=${one.until})` : `${one.day}>=${one.since}`;
      const whole = one.kind === "share" ? `${one.until}-${one.since}` : `${one.since}-${one.until}`;
      table.formula(row, "share", one.kind === "share" && one.day === one.until ? "1" : `IF(${inOrder},${time}/${grown(whole)},NA())`);
    }
    table.formula(row, "amount", `${at("share")}*${at("drained")}`);
    table.formula(row, "best", one.how === "dry" ? `${at("sign")}*${at("amount")}*${screen.tissue.best}*${screen.cropGuess.best}` : `${at("sign")}*${at("amount")}*${dry}*${screen.tissue.best}${one.kind === "scaled" ? `*${screen.cropGuess.best}` : ""}`);
    if (one.kind === "share" && one.ofMoment > 0) {
      const errors = Array.from({ length: one.ofMoment }, (_, other) => `${table.cell(row + other, "best")}*(1-${table.cell(row + other, "share")})`);
      table.formula(row, "variance", `(${errors.join("+")})^2/3`);
    } else table.put(row, "variance", 0);
  });
  return table;
}

function cropRows(log: Log, setUp: SetUp, periods: readonly Period[], table: HarvestTable, days: CropDays): CropRow[] {
  const rows: CropRow[] = [];
  const placeOf = new Map(log.harvests.map((harvest, place) => [harvest, place]));
  setUp.units.forEach((unit, screen) => {
    const own = log.harvests.filter((harvest) => harvest.unit === screen);
    const startDay = unit.startedDay ?? log.firstDay;
    const dayOf = (harvest: HarvestEntry | undefined): string => (harvest ? table.cell(placeOf.get(harvest) ?? 0, "day") : days.started(screen));
    const put = (period: number, sign: 1 | -1, day: number, side: "before" | "after"): void => {
      const crop: StandingCrop = standingCrop(unit, own, startDay, day, side);
      if (crop.kind === "none") return;
      const moment = sign === 1 ? days.to(period) : days.from(period);
      const last = [...own].reverse().find((harvest) => (side === "after" ? harvest.day <= day : harvest.day < day));
      if (crop.kind === "usual") {
        rows.push({ period, sign, screen, how: "dry", harvest: null, kind: "usual", since: days.started(screen), until: "", day: moment, ofMoment: 1 });
        return;
      }
      // Scaled from the interval that the last harvest closed.
      const before = crop.kind === "scaled" && last ? [...own].reverse().find((harvest) => harvest.day < last.day) : undefined;
      const isWhole = crop.share === 1 && crop.of[0]?.day === day;
      crop.of.forEach((harvest, place) => {
        const until = crop.kind === "share" ? (isWhole ? moment : dayOf(crop.of[0])) : dayOf(before);
        rows.push({ period, sign, screen, how: harvest.draining, harvest: placeOf.get(harvest) ?? null, kind: crop.kind, since: dayOf(last), until, day: moment, ofMoment: place === 0 ? crop.of.length : 0 });
      });
    };
    periods.forEach(({ from, to, withFrom, withTo }, period) => {
      put(period, -1, from, withFrom ? "before" : "after");
      put(period, 1, to, withTo ? "after" : "before");
    });
  });
  return rows;
}
