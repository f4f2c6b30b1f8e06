import type { Browser } from "playwright-core";
import { openDesk, type DeskPage } from "./desk-page";

/** The page on a phone, and the finger on its screen. */
export interface Phone {
  readonly phone: DeskPage;
  touch(type: "touchStart" | "touchMove" | "touchEnd", x?: number, y?: number): Promise<void>;
}

export async function openPhone(browser: Browser, address: string, workbook: Uint8Array): Promise<Phone> {
  const phone = await openDesk(browser, address, workbook, {
    viewport: { width: 390, height: 800 },
    hasTouch: true,
    isMobile: true,
  });
  const client = await phone.page.context().newCDPSession(phone.page);
  return {
    phone,
    touch: async (type, x = 0, y = 0) => {
      await client.send("Input.dispatchTouchEvent", {
        type,
        touchPoints: type === "touchEnd" ? [] : [{ x, y }],
      });
    },
  };
}
