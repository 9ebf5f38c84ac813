/** What was typed, on one line and no longer than a message bears. */
export const shortened = (text: string): string => {
  const line = text.trim().replace(/\s+/g, ' ');
  return line.length > 40 ? `${line.slice(0, 40)}…` : line;
};
