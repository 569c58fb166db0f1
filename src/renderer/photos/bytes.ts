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

/** The bytes of base64. A plain loop: a photo is a million letters, and the page has frames to draw. */
export function blobOf(base64: string, type = ''): Blob {
  const letters = atob(base64);
  const bytes = new Uint8Array(letters.length);
  for (let n = 0; n < letters.length; n += 1) bytes[n] = letters.charCodeAt(n);
  return new Blob([bytes], { type });
}
