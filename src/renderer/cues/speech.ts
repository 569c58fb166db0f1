/** Says a sentence in the browser's own voice; a later one goes before what is still being said. */
export function say(sentence: string): void {
  if (typeof speechSynthesis === 'undefined') return;
  speechSynthesis.cancel();
  const words = new SpeechSynthesisUtterance(sentence);
  words.lang = 'en-GB';
  speechSynthesis.speak(words);
}
