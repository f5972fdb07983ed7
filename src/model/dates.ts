// Dates of a book, as text: `2026-09-02`. No clock, no time zones.

/** The same day of the month some months later, or its last day where it has fewer. */
export function addMonths(date: string, months: number): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  const count = year * 12 + (month - 1) + months;
  const [newYear, newMonth] = [Math.floor(count / 12), (count % 12) + 1];
  const last = Math.min(day, daysOf(newYear, newMonth));
  return [String(newYear).padStart(4, '0'), pad(newMonth), pad(last)].join('-');
}

function daysOf(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

function pad(count: number): string {
  return String(count).padStart(2, '0');
}

/** The day after a date. */
export function nextDay(date: string): string {
  const [year = 0, month = 1, day = 1] = date.split('-').map(Number);
  if (day < daysOf(year, month)) return [String(year).padStart(4, '0'), pad(month), pad(day + 1)].join('-');
  const [newYear, newMonth] = month < 12 ? [year, month + 1] : [year + 1, 1];
  return [String(newYear).padStart(4, '0'), pad(newMonth), '01'].join('-');
}
