// Files dropped on the page, also those inside a dropped folder.

const MOST = 2000; // files; a larger folder is hardly one of cards

export async function dropped_files(dropped: DataTransfer): Promise<File[]> {
  const entries = [...dropped.items].map((item) => item.webkitGetAsEntry?.() ?? null);
  if (entries.every((entry) => entry === null)) return [...dropped.files];
  const files: File[] = [];
  for (const entry of entries) if (entry) await gather(entry, files);
  return files;
}

async function gather(entry: FileSystemEntry, files: File[]): Promise<void> {
  if (files.length >= MOST) return;
  if (is_file(entry)) {
    files.push(await new Promise<File>((found, failed) => entry.file(found, failed)));
  } else if (is_folder(entry)) {
    const reader = entry.createReader();
    for (;;) {
      const some = await new Promise<FileSystemEntry[]>((found, failed) =>
        reader.readEntries(found, failed),
      );
      if (some.length === 0) return;
      for (const one of some) await gather(one, files);
    }
  }
}

const is_file = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile;
const is_folder = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory;
