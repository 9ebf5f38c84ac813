import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Chassis } from '../../model/chassis';

/**
 * SHA-256 (FIPS 180-4) over a chassis file and the parents that it extends, itself first, as `sha256-` and 64 hexadecimal digits.
 * Line ends count as LF: a checkout may have turned them.
 */
export const chassisHash = (chassis: Pick<Chassis, 'chain'>): string => contentHash(textOf(chassis));

/** The same over one text. */
export const contentHash = (text: string): string => hashOf(text.replaceAll('\r\n', '\n'));

/**
 * Whether a sign-off's hash, whole or its first digits, is that of the chassis as it stands now. What was taken over a file
 * with LF line ends fits the same file with CRLF, and the other way round.
 */
export function matchesHash(chassis: Pick<Chassis, 'chain'>, written: string): boolean {
  const wanted = written.toLowerCase();
  if (!isLongEnough(wanted)) return false;
  const text = textOf(chassis);
  const withLf = text.replaceAll('\r\n', '\n');
  return [withLf, text, withLf.replaceAll('\n', '\r\n')].some((each) => hashOf(each).startsWith(wanted));
}

/** Fewer than eight digits would fit too many texts. */
const isLongEnough = (written: string): boolean => /^sha256-[0-9a-f]{8,64}$/.test(written);

const textOf = ({ chain }: Pick<Chassis, 'chain'>): string => chain.map(({ text }) => text).join('');

const hashOf = (text: string): string => `sha256-${bytesToHex(sha256(utf8ToBytes(text)))}`;
