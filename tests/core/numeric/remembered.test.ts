import { describe, expect, it } from "vitest";
import { remembered } from "../../../src/core/numeric/remembered";

describe("remembered", () => {
  const counting = (most: number) => {
    const calls: string[] = [];
    const call = remembered((name: string, parts: readonly (number | boolean)[]) => {
      calls.push(name);
      return { text: `${name} ${parts.join("+")}` };
    }, most);
    return { calls, call };
  };

  it("computes once for equal arguments and again for others", () => {
    const { calls, call } = counting(8);
    const first = call("a", [1, 2]);
    expect(first).toEqual({ text: "a 1+2" });
    expect(call("a", [1, 2])).toBe(first);
    expect(call("a", [2, 1])).toEqual({ text: "a 2+1" });
    expect(call("a", [12])).toEqual({ text: "a 12" });
    expect(call("b", [1, 2])).toEqual({ text: "b 1+2" });
    expect(call("a", [1, true])).toEqual({ text: "a 1+true" });
    expect(call("a", [1, 2])).toBe(first);
    expect(calls).toEqual(["a", "a", "a", "b", "a"]);
  });

  it("keeps the last results and forgets the first", () => {
    const { calls, call } = counting(3);
    for (const name of ["a", "b", "c", "a", "b", "c"]) call(name, []);
    expect(calls.join("")).toBe("abc");
    call("d", []);
    for (const name of ["b", "c", "d"]) call(name, []);
    expect(calls.join("")).toBe("abcd");
    expect(call("a", [])).toEqual({ text: "a " });
    expect(calls.join("")).toBe("abcda");
  });

  it("remembers nothing of a call that failed", () => {
    let calls = 0;
    const call = remembered((isRight: boolean) => {
      calls += 1;
      if (!isRight) throw new Error("wrong");
      return calls;
    }, 3);
    expect(() => call(false)).toThrow("wrong");
    expect(() => call(false)).toThrow("wrong");
    expect([call(true), call(true)]).toEqual([3, 3]);
  });
});
