import type { KeptBook } from "../grid/kept-book";
import { BrowserStore, KEPT_VERSION, type KeptRecord } from "./browser-store";
import type { Original } from "./original";

/** How it stands with the workbook that the page shows. */
export type Keeping =
  | { readonly state: "nothing" }
  | { readonly state: "kept"; readonly at: Date }
  /** Another tab of the page has changed what is kept, and must not lose it. */
  | { readonly state: "elsewhere" }
  /** A workbook that the page cannot show is kept, and must not be lost. */
  | { readonly state: "blocked" }
  /** The browser keeps nothing, or has no more room. */
  | { readonly state: "impossible" };

/** What the keeper asks of the page at the moment of saving. */
export interface ToKeep {
  readonly title: string;
  readonly changed: boolean;
  readonly book: KeptBook;
  readonly original: Original | null;
}

const SHORT_MOMENT_MS = 500;
/** A large workbook takes longer to keep, and is kept less often. */
const REST_PER_WORK = 10;
const LONGEST_MOMENT_MS = 4000;
const CHANNEL = "algal-ledger-kept";

/** Keeps the page's workbook in the browser, a short moment after each change and when the page goes. */
export class Keeper {
  private store: BrowserStore | null = null;
  /** The stamp of what this page kept, or found, last. */
  private stamp: string | null = null;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private moment = SHORT_MOMENT_MS;
  private saving: Promise<void> = Promise.resolve();
  /** How many savings are under way: one that waits for an answer is lost when the page goes. */
  private underWay = 0;
  private keeping: Keeping = { state: "nothing" };
  /** Whether another record stands in the place, as far as is known, and which it is. */
  private obstacle: "blocked" | "elsewhere" = "elsewhere";
  private isTaken = false;
  /** Whether something changed since the workbook was kept. */
  private unsaved = false;
  /** Tells the other tabs the stamp of what is kept now, null for nothing. */
  private readonly tabs = new BroadcastChannel(CHANNEL);

  constructor(private readonly current: () => ToKeep, private readonly tell: (keeping: Keeping) => void) {
    window.addEventListener("pagehide", () => this.keepAtOnce());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.keepAtOnce();
    });
    this.tabs.addEventListener("message", ({ data }: MessageEvent<string | null>) => this.hear(data));
  }

  /** Takes up the storage. @returns the workbook that is kept there; "unreadable" for one that is damaged, or of another make of the page */
  async start(): Promise<KeptRecord | "unreadable" | undefined> {
    this.store = await BrowserStore.open();
    const record = await this.store?.read().catch(() => "unreadable" as const);
    if (!record) return undefined;
    if (record === "unreadable") {
      this.disown();
      return "unreadable";
    }
    this.stamp = record.stamp;
    this.say({ state: "kept", at: new Date(record.savedAt) });
    return record;
  }

  /** What was found cannot be shown: it stays where it is, and nothing is kept in its place. */
  disown(): void {
    this.stamp = null;
    this.obstacle = "blocked";
    this.isTaken = true;
    this.say({ state: "nothing" });
  }

  /** Something changed. */
  changed(): void {
    this.unsaved = true;
    this.timer ??= setTimeout(() => void this.keep(), this.moment);
  }

  /** Whether everything is kept, or will be when the page goes. */
  get isSafe(): boolean {
    return !this.unsaved || (!this.isTaken && (this.keeping.state === "kept" || this.keeping.state === "nothing"));
  }

  /** Whether the browser holds another workbook than the page shows. */
  get holdsAnother(): boolean {
    return this.isTaken;
  }

  /** Keeps the workbook now; says how it went. */
  keep(): Promise<void> {
    this.stopWaiting();
    this.underWay += 1;
    this.saving = this.saving.then(async () => {
      const start = performance.now();
      try {
        // The storage may have been closed under the page, when the user cleared it.
        this.store ??= await BrowserStore.open();
        if (!this.store) throw new Error("The browser lends no storage.");
        const [before, record] = [this.stamp, this.record()];
        this.unsaved = false;
        const done = await this.store.replace(before, record);
        this.isTaken = !done;
        if (!done) this.fail({ state: this.obstacle });
        // Not if the page went for a moment meanwhile, and more was kept at once.
        else if (this.stamp === before) this.stand(record);
      } catch {
        this.store = null;
        this.fail({ state: "impossible" });
      }
      this.underWay -= 1;
      this.moment = Math.min(LONGEST_MOMENT_MS, Math.max(SHORT_MOMENT_MS, (performance.now() - start) * REST_PER_WORK));
    });
    return this.saving;
  }

  /** Takes out what this page kept; what another tab keeps stays there. */
  async forget(): Promise<void> {
    this.stopWaiting();
    await this.saving;
    if (this.store && this.stamp !== null) {
      this.isTaken = !(await this.store.replace(this.stamp, null).catch(() => false));
      if (!this.isTaken) this.tabs.postMessage(null);
    }
    this.startEmpty();
  }

  /** Takes out whatever is kept. */
  async forgetAll(): Promise<void> {
    this.stopWaiting();
    await this.saving;
    await this.store?.clear().catch(() => undefined);
    this.tabs.postMessage(null);
    this.obstacle = "elsewhere";
    this.isTaken = false;
    this.startEmpty();
  }

  private startEmpty(): void {
    this.stamp = null;
    this.unsaved = false;
    // Of a workbook that cannot be shown the page has spoken already.
    this.say({ state: this.isTaken && this.obstacle === "elsewhere" ? "elsewhere" : "nothing" });
  }

  private stopWaiting(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  private keepAtOnce(): void {
    if ((this.timer === undefined && this.underWay === 0) || !this.store || this.isTaken) return;
    this.stopWaiting();
    try {
      const record = this.record();
      this.unsaved = false;
      const put = this.store.putNow(record);
      this.stamp = record.stamp;
      put.then(() => this.stand(record), () => this.fail({ state: "impossible" }));
    } catch {
      this.fail({ state: "impossible" });
    }
  }

  private record(): KeptRecord {
    return { version: KEPT_VERSION, stamp: crypto.randomUUID(), savedAt: Date.now(), ...this.current() };
  }

  private stand(record: KeptRecord): void {
    this.stamp = record.stamp;
    this.tabs.postMessage(record.stamp);
    this.say({ state: "kept", at: new Date(record.savedAt) });
  }

  private fail(keeping: Keeping): void {
    this.unsaved = true;
    this.say(keeping);
  }

  /** Another tab kept a workbook, or took out the one that was kept. */
  private hear(stamp: string | null): void {
    if (stamp === this.stamp) return;
    // Taken out, this page's workbook stands nowhere but here.
    if (stamp === null && this.keeping.state === "kept") this.unsaved = true;
    if (stamp === null) this.stamp = null;
    this.isTaken = stamp !== null;
    this.obstacle = "elsewhere";
    this.say({ state: "elsewhere" });
  }

  private say(keeping: Keeping): void {
    this.keeping = keeping;
    this.tell(keeping);
  }
}
