/**
 * The Electron binary, for whoever starts it; undefined where it cannot be had. Its package fetches it on first use and
 * throws where it cannot.
 */
export async function electronProgram(): Promise<string | undefined> {
  try {
    const found: unknown = (await import('electron')).default;
    return typeof found === 'string' ? found : undefined;
  } catch {
    return undefined;
  }
}
