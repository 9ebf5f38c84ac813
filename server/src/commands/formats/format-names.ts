import * as list from './format-list';

/** The formats by name, and their names, the default first. */

export const formats = { ...list };
export type FormatName = keyof typeof formats;

export const defaultFormat: FormatName = 'text';

const isFormat = (name: string): name is FormatName => Object.hasOwn(formats, name);

export const formatNames: readonly FormatName[] = [
  defaultFormat,
  ...Object.keys(formats).filter((name) => isFormat(name) && name !== defaultFormat),
].filter(isFormat);
