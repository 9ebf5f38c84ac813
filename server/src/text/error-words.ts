import { printable } from './printable';

/** A message bears so much of what an error says, characters. */
const longest = 160;

/** What an error says, on one line; anything may have been thrown. */
export function errorWords(error: unknown): string {
  const words = printable(saidBy(error)).replace(/ {2,}/g, ' ').trim();
  return words.length > longest ? `${words.slice(0, longest)}…` : words;
}

/** For a log: with the way that led to it, where that is known. */
export function errorTrace(error: unknown): string {
  try {
    return error instanceof Error && error.stack ? error.stack : saidBy(error);
  } catch {
    return saidBy(error);
  }
}

function saidBy(error: unknown): string {
  try {
    return String(error);
  } catch {
    return 'an error without a message';
  }
}
