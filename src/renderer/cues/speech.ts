import { useSyncExternalStore } from 'react';

/** Whether this machine has a voice. A browser may find its voices only some time after it was started. */
export const useHasVoice = (): boolean => useSyncExternalStore(onVoices, hasVoice);

const hasVoice = (): boolean => typeof speechSynthesis !== 'undefined' && speechSynthesis.getVoices().length > 0;

function onVoices(listener: () => void): () => void {
  if (typeof speechSynthesis === 'undefined') return () => undefined;
  speechSynthesis.addEventListener('voiceschanged', listener);
  return () => speechSynthesis.removeEventListener('voiceschanged', listener);
}

/** Says a sentence in the browser's own voice; a later one goes before what is still being said. */
export function say(sentence: string): void {
  if (typeof speechSynthesis === 'undefined') return;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(sentence);
  words.lang = 'en-GB';
  speechSynthesis.speak(words);
}
