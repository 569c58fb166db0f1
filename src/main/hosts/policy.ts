/**
 * What a page of ours may do, as data and pure decisions. Both hosts send the same policy, so that the browser
 * tests exercise the one that Electron enforces.
 */
export function contentSecurityPolicy(connectTo: readonly string[] = [], scripts = "'self'"): string {
  return [
    "default-src 'none'",
    `script-src ${scripts}`,
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' data: blob:",
    "media-src 'self'",
    // A photo is read in a worker of our own, so that the screen goes on.
    "worker-src 'self'",
    `connect-src ${["'self'", ...connectTo].join(' ')}`,
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "object-src 'none'",
  ].join('; ');
}

/** Headers of every page and file, whatever host serves it. */
export const securityHeaders = (
  connectTo: readonly string[] = [],
  scripts?: string,
): Readonly<Record<string, string>> => ({
  'content-security-policy': contentSecurityPolicy(connectTo, scripts),
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  // The camera for photos of the mark, on our own pages alone; a browser still asks the person.
  'permissions-policy': 'camera=(self), microphone=(), geolocation=(), usb=(), serial=(), hid=()',
});

const mediaTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ttf': 'font/ttf',
  '.woff2': 'font/woff2',
};

/** The media type of one of our own files; unknown endings are bytes, never guessed. */
export const mediaTypeOf = (file: string): string =>
  mediaTypes[/\.[a-z0-9]+$/u.exec(file)?.[0] ?? ''] ?? 'application/octet-stream';

/**
 * The worker that opens photos may compile what it is given: the decoder for phones' photos is a program of that kind. A worker has the
 * policy of its own file, so that the page and every other worker stay without this.
 */
const mayCompile = /(?:^|[/\\])readWorker-[\w-]+\.js$/u;

/** Headers of one of our own files. */
export const fileHeaders = (file: string, connectTo: readonly string[] = []): Readonly<Record<string, string>> => ({
  ...securityHeaders(connectTo, mayCompile.test(file) ? "'self' 'wasm-unsafe-eval'" : undefined),
  'content-type': mediaTypeOf(file),
});

/**
 * The page's own files by their URL path ("/" and "/assets/x.js"): a list made once, so that no request can
 * walk out of the folder.
 */
export type PageFiles = ReadonlyMap<string, string>;

/** The file for a request path, or undefined. Query and fragment do not choose files. */
export function fileFor(files: PageFiles, url: string): string | undefined {
  const path = url.split(/[?#]/u, 1)[0] ?? '';
  return files.get(path === '/' ? '/index.html' : path);
}
