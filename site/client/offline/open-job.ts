// Whether work is going on that pages must not change under. What keeps jobs says so; without it there is none.

type Ask = (folder: string) => Promise<boolean>;

let ask: Ask = async () => false;

/** Tells how to find out whether a job is open on pages below a folder of the site (`es/tarn-40/row-12x20/`). */
export function askForOpenJobs(how: Ask): void {
  ask = how;
}

/** Whether a job is open on pages below a folder. Where it cannot be found out, as if one were. */
export async function hasOpenJob(folder: string): Promise<boolean> {
  try {
    return await ask(folder);
  } catch {
    return true;
  }
}
