import { createContext, Script } from "node:vm";

const context = createContext({ work: (): void => undefined });
const script = new Script("work()");

/** Runs `work`; throws where it has not ended after some milliseconds, whatever it is doing. */
export function interrupt(work: () => void, milliseconds: number): void {
  context["work"] = work;
  script.runInContext(context, { timeout: milliseconds });
}
