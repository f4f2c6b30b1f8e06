import type { Work } from "./messages";

/** Work that was not saved when its page went away. */
export interface Draft {
  readonly name: string;
  /** When it was kept, in milliseconds since 1970. */
  readonly time: number;
  readonly bytes: Uint8Array;
  readonly work: Work;
}

const DATABASE = "desk";
const FILES = "files";
const WORK = "work";

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => {
      resolve(request.result);
    };
    request.onerror = () => {
      reject(request.error ?? new Error("the browser keeps nothing"));
    };
  });
}

function openDatabase(): Promise<IDBDatabase> {
  const request = indexedDB.open(DATABASE, 1);
  request.onupgradeneeded = () => {
    for (const name of [FILES, WORK]) request.result.createObjectStore(name);
  };
  return settled(request);
}

/** Drafts in this browser, one for each open page; a browser that keeps nothing just has none. */
export class Drafts {
  private readonly id = crypto.randomUUID();
  private readonly database = openDatabase();
  private kept: Uint8Array | undefined;

  constructor() {
    // As long as this page lives, others leave its draft alone.
    void navigator.locks?.request(`desk-${this.id}`, () => new Promise(() => undefined));
  }

  /** Keeps work; the file itself is written only when it is another one than before. */
  async keep(draft: Draft): Promise<void> {
    const { bytes, ...rest } = draft;
    const stores = (await this.database).transaction([FILES, WORK], "readwrite");
    const writes = [settled(stores.objectStore(WORK).put(rest, this.id))];
    if (this.kept !== bytes) writes.push(settled(stores.objectStore(FILES).put(bytes, this.id)));
    await Promise.all(writes);
    this.kept = bytes;
  }

  async drop(): Promise<void> {
    this.kept = undefined;
    await this.remove(this.id);
  }

  /** The latest draft of a page that is gone, taken out of what is kept. */
  async takeLost(): Promise<Draft | undefined> {
    const stores = (await this.database).transaction([FILES, WORK]);
    const work = stores.objectStore(WORK);
    const [keys, drafts] = await Promise.all([
      settled(work.getAllKeys()),
      settled<Omit<Draft, "bytes">[]>(work.getAll()),
    ]);
    const held = new Set((await navigator.locks?.query())?.held?.map(({ name }) => name));
    const lost = keys
      .map((key, index) => ({ key: String(key), draft: drafts[index] }))
      .filter(({ key }) => !held.has(`desk-${key}`))
      .sort((a, b) => (b.draft?.time ?? 0) - (a.draft?.time ?? 0));
    const [latest] = lost;
    const files = (await this.database).transaction(FILES).objectStore(FILES);
    const bytes = latest && (await settled<Uint8Array | undefined>(files.get(latest.key)));
    for (const { key } of lost) await this.remove(key);
    return latest?.draft && bytes ? { ...latest.draft, bytes } : undefined;
  }

  private async remove(key: string): Promise<void> {
    const stores = (await this.database).transaction([FILES, WORK], "readwrite");
    await Promise.all([FILES, WORK].map((name) => settled(stores.objectStore(name).delete(key))));
  }
}
