/** Dates as files write them, ISO 8601: a day, or a day and a time of day, with a zone or without. No clock and no zone of this machine is asked. */

const withTime = /[T ]\d{2}:\d{2}/;
const withZone = /(Z|[+-]\d{2}:\d{2})$/;

/** By the day where one of them tells no time of day, or only one tells its zone. */
export function isEarlier(one: string, other: string): boolean {
  const sameKind = withTime.test(one) && withTime.test(other) && withZone.test(one) === withZone.test(other);
  return sameKind ? instant(one) < instant(other) : dayOf(one) < dayOf(other);
}

const instant = (at: string): number => {
  const text = at.replace(' ', 'T');
  return Date.parse(withZone.test(text) ? text : `${text}Z`);
};

export const dayOf = (at: string): string => at.slice(0, 10);

/** The same day so many months later; the last day of the month where it has no such day. */
export function monthsAfter(at: string, months: number): string {
  const [year, month, day] = dayOf(at).split('-').map(Number);
  const lastDay = new Date(Date.UTC(year, month + months, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(day, lastDay))).toISOString().slice(0, 10);
}
