import { ClientObject, type Loadable, type LoadOption, namesToLoad } from "./client-object";
import { clientResult } from "./client-result";
import { itemNotFound } from "./excel-error";

/**
 * A list of things of the workbook. Its items stand after a load and a sync; each is found by a key that stays when the thing is
 * renamed.
 * @typeParam Parent what the list belongs to
 */
export abstract class ClientCollection<Parent, Item extends Loadable> extends ClientObject<Parent> {
  protected override readonly readers: Readonly<Record<string, (parent: Parent) => unknown>> = {
    items: (parent) => this.keys(parent).map((key) => this.item(() => key)),
    count: (parent) => this.keys(parent).length,
  };

  /** The keys of all items, in their order. */
  protected abstract keys(parent: Parent): readonly string[];
  /** The name by which an item is asked for; told apart without regard to case. */
  protected abstract nameOf(key: string): string;
  protected abstract item(find: () => string | null): Item;

  get items(): Item[] {
    return this.loadedCopy("items") as Item[];
  }

  get count(): number {
    return this.loadedCopy("count") as number;
  }

  getItem(name: string): Item {
    return this.itemWhere((keys) => this.keyOf(keys, name), "getItem");
  }

  getItemOrNullObject(name: string): Item {
    return this.item(this.below((parent) => this.keyOf(this.keys(parent), name) ?? null));
  }

  getItemAt(index: number): Item {
    return this.itemWhere((keys) => keys[index], "getItemAt");
  }

  getCount(): OfficeExtension.ClientResult<number> {
    return this.countOf((parent) => this.keys(parent).length);
  }

  /** Properties of a collection are those of its items: "items/name", "name" or { name: true }. */
  protected queueLoadItems(option: LoadOption | undefined): void {
    const paths = namesToLoad(option)?.map((path) => path.replace(/^items(\/|$)/, ""));
    const ofItems = paths?.filter((path) => path !== "" && path !== "count" && path !== "$all");
    this.queueLoad(paths?.includes("count") ? ["items", "count"] : "items");
    this.local.queue(() => {
      for (const item of this.items ?? []) {
        if (ofItems === undefined || ofItems.length === 0) item.load();
        else item.load(ofItems);
      }
    });
  }

  protected countOf(count: (parent: Parent) => number = (parent) => this.keys(parent).length): OfficeExtension.ClientResult<number> {
    const { result, settle } = clientResult<number>();
    this.queueWith((parent) => settle(count(parent)));
    return result;
  }

  protected itemWhere(find: (keys: readonly string[]) => string | undefined, member: string): Item {
    return this.item(
      this.below((parent) => {
        const key = find(this.keys(parent));
        if (key === undefined) throw itemNotFound(`${this.entity}.${member}`);
        return key;
      }),
    );
  }

  private keyOf(keys: readonly string[], name: string): string | undefined {
    const wanted = String(name).toLowerCase();
    return keys.find((key) => this.nameOf(key).toLowerCase() === wanted) ?? keys.find((key) => key === name);
  }
}
