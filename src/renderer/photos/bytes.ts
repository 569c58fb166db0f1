/** A file's bytes as base64, for the wire. */
export const base64Of = (file: Blob): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => {
      const text = typeof reader.result === 'string' ? reader.result : '';
      resolve(text.slice(text.indexOf(',') + 1));
    });
    reader.addEventListener('error', () => reject(reader.error ?? new Error('the file cannot be read')));
    reader.readAsDataURL(file);
  });

export const blobOf = (base64: string, type = ''): Blob =>
  new Blob([Uint8Array.from(atob(base64), (letter) => letter.codePointAt(0) ?? 0)], { type });
