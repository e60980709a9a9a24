import type { Engine } from "../host/engine/engine";

/** The engine, which takes a second to begin and is begun when something needs it. */
export interface EngineLater {
  get(): Promise<Engine>;
  dispose(): void;
}

export function engineLater(): EngineLater {
  let engine: Engine | undefined;
  return {
    async get() {
      return (engine ??= (await import("./engine")).newEngine());
    },
    dispose: () => engine?.dispose(),
  };
}

/** One that is there already, and stays. */
export const engineAtHand = (engine: Engine): EngineLater => ({ get: () => Promise.resolve(engine), dispose: () => undefined });
