/** A file in IndexedDB. WebKit keeps no Blob for a page in a private window, but its bytes. */
export type KeptFile = Blob | { bytes: ArrayBuffer; type: string };

/** Keeps a file by `put`: as it is, and where that is refused as bytes. Rejects as the second attempt does. */
export async function putFile(
  file: Blob,
  put: (kept: KeptFile) => Promise<unknown>,
): Promise<void> {
  try {
    await put(file);
  } catch {
    await put({ bytes: await file.arrayBuffer(), type: file.type });
  }
}

/** The file that was kept. */
export function fileOf(kept: KeptFile): Blob {
  return kept instanceof Blob ? kept : new Blob([kept.bytes], { type: kept.type });
}
