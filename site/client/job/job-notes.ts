// Notes of jobs outside the store, which a page can read without opening it.

/** Whether the phone may have jobs: where notes cannot be read the store itself is asked. */
export function mayHaveJobs(): boolean {
  try {
    return Object.keys(localStorage).some(
      (key) => key.startsWith('stepgauge-jobs ') && localStorage.getItem(key) !== '[]',
    );
  } catch {
    return true;
  }
}
