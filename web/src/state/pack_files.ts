// What becomes of a file that Quoin made when it is pressed on.

import { fetch_pack_file, open_outside } from '../api/desk';
import { desk } from './desk.svelte';

/** Opens it with the program that the system has for it. */
export async function open_file(name: string): Promise<void> {
  await open_outside(name).catch((problem) => desk.tell(problem));
}

/** Hands it to the browser, to be saved. */
export async function save_file(name: string): Promise<void> {
  try {
    const address = URL.createObjectURL(await fetch_pack_file(name));
    const link = document.createElement('a');
    link.href = address;
    link.download = name.split('/').at(-1) ?? name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 60_000);
  } catch (problem) {
    desk.tell(problem);
  }
}
