import { HostError, type DocumentChoices } from "./sheet-host";

const TRUST_SETTING = "Office.DisableTrustUX";

/** What the person has chosen for this workbook. */
export async function choices(): Promise<DocumentChoices> {
  const behavior = await Office.addin.getStartupBehavior();
  const { platform, document } = Office.context;
  // Excel on the web shows the prompt in its own way and takes no such setting.
  const canHide = platform === Office.PlatformType.PC || platform === Office.PlatformType.Mac;
  return {
    startsOnOpen: behavior === Office.StartupBehavior.load,
    hidesTrustPrompt: canHide ? document.settings.get(TRUST_SETTING) === true : undefined,
  };
}

/** Whether Excel asks before it trusts the add-in in this workbook. */
export async function setHidesTrustPrompt(isOn: boolean): Promise<void> {
  const { settings } = Office.context.document;
  if (isOn) settings.set(TRUST_SETTING, true);
  else settings.remove(TRUST_SETTING);
  await new Promise<void>((resolve, reject) => {
    settings.saveAsync(({ status, error }) => {
      if (status === Office.AsyncResultStatus.Failed) reject(new HostError(error.message));
      else resolve();
    });
  });
}
