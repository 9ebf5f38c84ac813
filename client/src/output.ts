import { type LogOutputChannel, window } from 'vscode';

let channel: LogOutputChannel | undefined;

/** The one output channel, *Framewright*; made when first asked for. */
export const output = (): LogOutputChannel => {
  channel ??= window.createOutputChannel('Framewright', { log: true });
  return channel;
};
