/** What is sealed of a job, as the text that is hashed. */
export function sealedTexts(
  text: string,
  chassisTexts: readonly string[],
  rule?: string,
): { readings: string; chassis: string };

/**
 * Both seals of a job.
 * @param chassisTexts the chassis file, then the one that it extends, and so on
 */
export function sealsOf(
  text: string,
  chassisTexts: readonly string[],
  rule?: string,
): { readings: string; chassis: string };
