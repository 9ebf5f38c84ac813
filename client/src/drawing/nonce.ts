/** A word that nobody can guess, for one page (W3C Content Security Policy Level 3: 128 bits at least). */
export const nonce = (): string => {
  const bytes = crypto.getRandomValues(new Uint8Array(24));
  return btoa(String.fromCharCode(...bytes))
    .replaceAll('+', '-')
    .replaceAll('/', '_');
};
