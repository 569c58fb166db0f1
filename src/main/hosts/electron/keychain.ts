import type * as Electron from 'electron';
import type { Keychain } from '../../archive/keychain.ts';
import type { WordFromBench, WordToBench } from './hostWords.ts';

type Safe = Pick<typeof Electron, 'safeStorage'>;

/**
 * The keychain of the system as Electron reaches it; only after the program is ready. On Linux it says `basic_text` where it found
 * none and would hide the secret behind a word that everybody knows (documentation of safeStorage): that is no keychain.
 */
export function systemKeychain({ safeStorage }: Safe, platform: NodeJS.Platform = process.platform): Keychain {
  const isThere = async (): Promise<boolean> => {
    const hides = platform === 'linux' && ['basic_text', 'unknown'].includes(safeStorage.getSelectedStorageBackend());
    return !hides && safeStorage.isAsyncEncryptionAvailable();
  };
  const asked = async (work: () => Promise<string>): Promise<string | undefined> => {
    try {
      return (await isThere()) ? await work() : undefined;
    } catch {
      // Locked and not unlocked, or sealed under another account: it is as if there were none.
      return undefined;
    }
  };
  return {
    seal: (secret) => asked(async () => (await safeStorage.encryptStringAsync(secret)).toString('base64')),
    open: (sealed) => asked(async () => (await safeStorage.decryptStringAsync(Buffer.from(sealed, 'base64'))).result),
  };
}

/** The same keychain behind the words of the bench's process, which has none of its own. */
export function keychainBefore(say: (word: WordFromBench) => void) {
  const waiting = new Map<number, (text: string | undefined) => void>();
  const asking = (word: (keychain: number) => WordFromBench): Promise<string | undefined> => {
    const { promise, resolve } = Promise.withResolvers<string | undefined>();
    const number = waiting.size === 0 ? 1 : Math.max(...waiting.keys()) + 1;
    waiting.set(number, resolve);
    say(word(number));
    return promise;
  };
  const keychain: Keychain = {
    seal: (seal) => asking((number) => ({ keychain: number, seal })),
    open: (open) => asking((number) => ({ keychain: number, open })),
  };
  return {
    keychain,
    answer: ({ keychain: number, text }: Extract<WordToBench, { keychain: number }>): void => {
      waiting.get(number)?.(text);
      waiting.delete(number);
    },
  };
}

/** Answers what the bench's process asks of it. */
export async function answerOf(
  keychain: Keychain,
  word: Extract<WordFromBench, { keychain: number }>,
): Promise<WordToBench> {
  const text = 'seal' in word ? await keychain.seal(word.seal) : await keychain.open(word.open);
  return { keychain: word.keychain, ...(text === undefined ? {} : { text }) };
}
