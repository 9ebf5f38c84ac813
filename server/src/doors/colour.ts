import pc from 'picocolors';

/**
 * Whether what is printed is coloured. The library asks NO_COLOR, FORCE_COLOR and TERM; it would colour on some hosts where no terminal
 * is as well, and there programs read the lines: they get colours only where FORCE_COLOR asks for them.
 */
export function isColoured(isTerminal: boolean, forced = process.env.FORCE_COLOR ?? ''): boolean {
  if (forced === '0' || forced === 'false') return false;
  return pc.isColorSupported && (isTerminal || forced !== '');
}
