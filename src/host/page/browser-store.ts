import type { KeptBook } from "../grid/kept-book";

/** A workbook as the browser keeps it. */
export interface KeptRecord {
  readonly version: typeof KEPT_VERSION;
  /** New with every saving, so that a page sees when another one has saved. */
  readonly stamp: string;
  /** Milliseconds since 1970. */
  readonly savedAt: number;
  readonly title: string;
  /** Whether the user changed it since it was opened. */
  readonly changed: boolean;
  readonly book: KeptBook;
}

export const KEPT_VERSION = 1;
const [DATABASE, STORE, KEY] = ["algal-ledger", "workbooks", "open"];
/**
 * The workbook is kept as a text in pieces, under the numbers from 0. A large value would be put aside by the browser and fetched
 * later, which fails when the page goes at that moment; a short one is handed over at once.
 */
const PIECE_LENGTH = 16_000;

/** What stands beside the pieces. */
interface Head extends Omit<KeptRecord, "book"> {
  readonly pieces: number;
}

/** The one place of this page in the browser's own storage (IndexedDB), which holds one workbook. */
export class BrowserStore {
  private constructor(private readonly database: IDBDatabase) {
    // Without this no other page could ever open a newer make of the storage.
    database.onversionchange = () => database.close();
  }

  /** null where the browser has no storage, or lends none to this page. */
  static open(): Promise<BrowserStore | null> {
    return new Promise((resolve) => {
      try {
        const request = indexedDB.open(DATABASE, 1);
        request.onupgradeneeded = () => request.result.createObjectStore(STORE);
        request.onsuccess = () => resolve(new BrowserStore(request.result));
        request.onerror = () => resolve(null);
        request.onblocked = () => resolve(null);
      } catch {
        resolve(null);
      }
    });
  }

  /** Fails for a record that is damaged, or of another make. */
  read(): Promise<KeptRecord | undefined> {
    return new Promise((resolve, reject) => {
      const store = this.database.transaction(STORE).objectStore(STORE);
      const [head, pieces]: [IDBRequest<Head | undefined>, IDBRequest<string[]>] = [store.get(KEY), store.getAll(IDBKeyRange.bound(0, Infinity))];
      store.transaction.oncomplete = () => {
        try {
          resolve(head.result && joined(head.result, pieces.result));
        } catch (error) {
          reject(error as Error);
        }
      };
      store.transaction.onabort = () => reject(store.transaction.error ?? new Error("The kept workbook could not be read."));
    });
  }

  /**
   * Puts a record in the place of the one with the stamp `before` (null for none), or empties the place.
   * @returns whether it was done: not when another record stands there
   */
  replace(before: string | null, record: KeptRecord | null): Promise<boolean> {
    const parts = record && cut(record);
    return new Promise((resolve, reject) => {
      const transaction = this.database.transaction(STORE, "readwrite");
      const store = transaction.objectStore(STORE);
      const request: IDBRequest<Head | undefined> = store.get(KEY);
      let done = false;
      request.onsuccess = () => {
        if (request.result && request.result.stamp !== before) return;
        done = true;
        if (parts) put(store, parts);
        else store.clear();
      };
      transaction.oncomplete = () => resolve(done);
      transaction.onabort = () => reject(transaction.error ?? new Error("The workbook could not be kept."));
    });
  }

  /** Without a look at what stands there: for the moment in which the page goes and no answer would arrive. */
  putNow(record: KeptRecord): Promise<void> {
    const parts = cut(record);
    return new Promise((resolve, reject) => {
      const transaction = this.database.transaction(STORE, "readwrite");
      put(transaction.objectStore(STORE), parts);
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error("The workbook could not be kept."));
      transaction.commit();
    });
  }

  /** Empties the place, whatever stands there. */
  clear(): Promise<void> {
    return new Promise((resolve, reject) => {
      const transaction = this.database.transaction(STORE, "readwrite");
      transaction.objectStore(STORE).clear();
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error("The kept workbook could not be taken out."));
    });
  }
}

function cut({ book, ...rest }: KeptRecord): { head: Head; pieces: string[] } {
  const text = JSON.stringify(book);
  const pieces = Array.from({ length: Math.ceil(text.length / PIECE_LENGTH) }, (_piece, i) => text.slice(i * PIECE_LENGTH, (i + 1) * PIECE_LENGTH));
  return { head: { ...rest, pieces: pieces.length }, pieces };
}

function put(store: IDBObjectStore, { head, pieces }: ReturnType<typeof cut>): void {
  store.clear();
  pieces.forEach((piece, i) => store.put(piece, i));
  store.put(head, KEY);
}

function joined({ pieces: count, ...head }: Head, pieces: readonly string[]): KeptRecord {
  if (head.version !== KEPT_VERSION || pieces.length !== count) throw new Error("The kept workbook is of another make.");
  return { ...head, book: JSON.parse(pieces.join("")) as KeptBook };
}
