import './print.css';

/**
 * Hands pages to the printer of this computer: they lie in the document for as long as its dialogue is open, and nothing else is
 * printed then. Neither frames nor other windows are needed, which the desktop program does not open.
 */
export async function printPages(pages: readonly Blob[], paper: 'a4' | 'letter'): Promise<void> {
  const sheet = document.createElement('div');
  sheet.className = `printed printed--${paper}`;
  const urls = pages.map((page) => URL.createObjectURL(page));
  const images = urls.map((url) => Object.assign(document.createElement('img'), { src: url, alt: '' }));
  sheet.append(...images);
  document.body.append(sheet);
  document.documentElement.dataset['printing'] = paper;
  try {
    await Promise.all(images.map((image) => image.decode()));
    window.print();
  } finally {
    delete document.documentElement.dataset['printing'];
    sheet.remove();
    for (const url of urls) URL.revokeObjectURL(url);
  }
}
