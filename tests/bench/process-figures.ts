import { readFileSync } from 'node:fs';

/** Memory of a process now and at the most, MB; null where the system does not tell. */
export function memoryMb(pid: number | undefined): { now: number; peak: number } | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const figure = (name: string) =>
      Number(status.match(new RegExp(`^${name}:\\s*(\\d+) kB`, 'm'))![1]) / 1024;
    return { now: figure('VmRSS'), peak: figure('VmHWM') };
  } catch {
    return null;
  }
}

/** How long a process's main thread has worked, ms, whatever else the machine does; null where the system does not tell. */
export function workedMs(pid: number | undefined): number | null {
  try {
    return Number(readFileSync(`/proc/${pid}/task/${pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6;
  } catch {
    return null;
  }
}
