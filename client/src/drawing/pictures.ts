import { l10n, type Uri, window, workspace } from 'vscode';

const names = { svg: 'SVG', png: 'PNG' } as const;

/** Asks where to, and writes a picture. @param content text of an SVG, or a PNG in base 64 */
export const savePicture = async (
  beside: Uri | undefined,
  type: 'svg' | 'png',
  content: string,
): Promise<void> => {
  const target = await window.showSaveDialog({
    title: l10n.t('Save the picture'),
    filters: { [names[type]]: [type] },
    ...(beside ? { defaultUri: besideUri(beside, type) } : {}),
  });
  if (target === undefined) return;
  try {
    await workspace.fs.writeFile(
      target,
      type === 'svg' ? new TextEncoder().encode(content) : bytesOf(content),
    );
  } catch (reason) {
    void window.showErrorMessage(
      l10n.t('The picture was not saved: {0}', reason instanceof Error ? reason.message : String(reason)),
    );
  }
};

/** `jobs/w-1187.svg` of `jobs/w-1187.readings.yaml`. */
const besideUri = (file: Uri, type: string): Uri =>
  file.with({
    path: file.path.replace(/(\.(readings|chassis))?\.ya?ml$/, '').concat(`.${type}`),
    query: '',
    fragment: '',
  });

const bytesOf = (base64: string): Uint8Array =>
  Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
