const KEY = 'hueproof.guide';

/** The walk through a practice scene: under way or not. It ends when it is closed or its last note was read. */
let walking = false;
const listeners = new Set<() => void>();

const tell = (): void => {
  for (const listener of listeners) listener();
};

/** Was the walk ever closed or finished on this device? Then the start no longer offers it first. */
export function guideDone(): boolean {
  try {
    return localStorage.getItem(KEY) === 'done';
  } catch {
    return false;
  }
}

export const guideOn = (): boolean => walking;

export function startGuide(): void {
  walking = true;
  tell();
}

export function endGuide(): void {
  walking = false;
  try {
    localStorage.setItem(KEY, 'done');
  } catch {
    // Storage is switched off; the walk is offered again next time.
  }
  tell();
}

/** Calls back after each change; returns how to stop that. */
export function onGuide(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
