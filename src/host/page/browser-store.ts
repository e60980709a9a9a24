import type { KeptBook } from "../grid/kept-book";
import type { Original } from "./original";

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
  /** The file that it was opened from; null for none. */
  readonly original: Original | null;
}

export const KEPT_VERSION = 1;
const [DATABASE, STORE, KEY] = ["algal-ledger", "workbooks", "open"];
/**
 * The workbook is kept as a text in pieces, under the numbers from 0. A large value would be put aside by the browser and fetched
 * later, which fails when the page goes at that moment; a short one is handed over at once. The file that it was opened from stands
 * under the numbers from -1 down, and is written once.
 */
const PIECE_LENGTH = 16_000;
const [BOOK, ORIGINAL] = [IDBKeyRange.bound(0, Infinity), IDBKeyRange.bound(-Infinity, -1)];

/** What stands beside the pieces. */
interface Head extends Omit<KeptRecord, "book" | "original"> {
  readonly pieces: number;
  /** Left out by earlier makes of the page. */
  readonly original?: (Omit<Original, "packed"> & { readonly pieces: number }) | null;
}

/** The one place of this page in the browser's own storage (IndexedDB), which holds one workbook. */
export class BrowserStore {
  /** The id of the file that this page put there, or found there, last. */
  private original: string | null = null;

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
      const head: IDBRequest<Head | undefined> = store.get(KEY);
      const [pieces, ofOriginal]: [IDBRequest<string[]>, IDBRequest<string[]>] = [store.getAll(BOOK), store.getAll(ORIGINAL)];
      store.transaction.oncomplete = () => {
        try {
          const record = head.result && joined(head.result, pieces.result, ofOriginal.result.reverse());
          if (record?.original?.packed) this.original = record.original.id;
          resolve(record);
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
        if (parts) put(store, parts, this.original);
        else store.clear();
      };
      transaction.oncomplete = () => {
        if (done) this.original = record?.original?.id ?? null;
        resolve(done);
      };
      transaction.onabort = () => reject(transaction.error ?? new Error("The workbook could not be kept."));
    });
  }

  /** Without a look at what stands there: for the moment in which the page goes and no answer would arrive. */
  putNow(record: KeptRecord): Promise<void> {
    const parts = cut(record);
    return new Promise((resolve, reject) => {
      const transaction = this.database.transaction(STORE, "readwrite");
      put(transaction.objectStore(STORE), parts, this.original);
      transaction.oncomplete = () => {
        this.original = record.original?.id ?? null;
        resolve();
      };
      transaction.onabort = () => reject(transaction.error ?? new Error("The workbook could not be kept."));
      transaction.commit();
    });
  }

  /** Empties the place, whatever stands there. */
  clear(): Promise<void> {
    this.original = null;
    return new Promise((resolve, reject) => {
      const transaction = this.database.transaction(STORE, "readwrite");
      transaction.objectStore(STORE).clear();
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error ?? new Error("The kept workbook could not be taken out."));
    });
  }
}

interface Parts {
  readonly head: Head;
  readonly pieces: readonly string[];
  readonly ofOriginal: readonly string[];
}

function cut({ book, original, ...rest }: KeptRecord): Parts {
  const pieces = piecesOf(JSON.stringify(book));
  // Its id stands before it: another tab may have put its own there.
  const ofOriginal = original?.packed ? [original.id, ...piecesOf(original.packed)] : [];
  return { head: { ...rest, pieces: pieces.length, original: original && { id: original.id, unshown: original.unshown, pieces: ofOriginal.length } }, pieces, ofOriginal };
}

function piecesOf(text: string): string[] {
  return Array.from({ length: Math.ceil(text.length / PIECE_LENGTH) }, (_piece, i) => text.slice(i * PIECE_LENGTH, (i + 1) * PIECE_LENGTH));
}

/** @param there the id of the original that stands there already */
function put(store: IDBObjectStore, { head, ofOriginal, pieces }: Parts, there: string | null): void {
  if (head.original?.id !== there || there === null) {
    store.clear();
    ofOriginal.forEach((piece, i) => store.put(piece, -1 - i));
  } else store.delete(BOOK);
  pieces.forEach((piece, i) => store.put(piece, i));
  store.put(head, KEY);
}

function joined({ original, pieces: count, ...head }: Head, pieces: readonly string[], ofOriginal: readonly string[]): KeptRecord {
  if (head.version !== KEPT_VERSION || pieces.length !== count) throw new Error("The kept workbook is of another make.");
  // Without its file the workbook is whole all the same.
  const packed = original && original.pieces > 0 && original.pieces === ofOriginal.length && ofOriginal[0] === original.id ? ofOriginal.slice(1).join("") : null;
  return { ...head, book: JSON.parse(pieces.join("")) as KeptBook, original: original ? { id: original.id, unshown: original.unshown, packed } : null };
}
