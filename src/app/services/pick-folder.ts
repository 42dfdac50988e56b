import type { PickedFolder } from '../../record';

type Picker = (options: { readonly mode: 'readwrite'; readonly id: string }) => Promise<PickedFolder>;

const picker = (): Picker | undefined => (globalThis as { showDirectoryPicker?: Picker }).showDirectoryPicker;

/** True where the browser lets a page write into a folder that the user picks. */
export const canPickFolder = (): boolean => picker() !== undefined;

/** A folder picked by the user; null when none was. */
export async function pickFolder(): Promise<PickedFolder | null> {
  try {
    return (await picker()?.({ mode: 'readwrite', id: 'hueproof' })) ?? null;
  } catch (error) {
    // The user closed the dialog: that is an answer.
    if (error instanceof DOMException && error.name === 'AbortError') return null;
    throw error;
  }
}
